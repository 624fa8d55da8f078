package undersong.render.score;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.theory.ChordSymbol;
import undersong.theory.Interval;
import undersong.theory.Key;

/**
 * The lines of one section while they are read; a copy of another section starts with its lines.
 */
final class SectionDraft {
  private static final String CHORDS = "chords";

  private final String name;
  private final SourceLine opening;
  private final Map<String, String> settings;
  private final Map<String, List<SourceLine>> lines = new LinkedHashMap<>();
  private final Set<String> writtenHere = new HashSet<>();
  private final List<Plant> plants = new ArrayList<>();

  SectionDraft(
      String name, SourceLine opening, Map<String, String> settings, SectionDraft pattern) {
    this.name = name;
    this.opening = opening;
    this.settings = new HashMap<>(settings);
    if (pattern != null) {
      pattern.lines.forEach((key, value) -> lines.put(key, new ArrayList<>(value)));
      pattern.settings.forEach(this.settings::putIfAbsent);
    }
  }

  String name() {
    return name;
  }

  /** Takes one line: chords, a plant, or what a part does. A second line of a kind continues it. */
  void add(SourceLine line, Map<String, Part> parts) {
    String word = line.firstWord();
    if (word.equals("plant")) {
      plants.add(plant(line));
      return;
    }
    if (word.equals(CHORDS)) {
      put(CHORDS, line);
      return;
    }
    if (!parts.containsKey(word)) {
      throw line.wrong("no part is called \"%s\"; there are %s", word, parts.keySet());
    }
    SourceLine rest = line.tail();
    switch (rest.firstWord()) {
      case "plays" -> {
        forget(word + " follows");
        put(word + " plays", rest);
      }
      case "follows" -> {
        forget(word + " plays");
        forget(word + " sings");
        put(word + " follows", rest);
      }
      case "sings", "mix" -> put(word + " " + rest.firstWord(), rest);
      case "rests" -> {
        forget(word + " plays");
        forget(word + " follows");
        forget(word + " sings");
      }
      default ->
          throw line.wrong(
              "a part plays, follows, sings, rests or has a mix; it does not \"%s\"",
              rest.firstWord());
    }
  }

  private void put(String key, SourceLine line) {
    if (writtenHere.add(key)) {
      lines.put(key, new ArrayList<>());
    }
    lines.get(key).add(line);
  }

  private void forget(String key) {
    lines.remove(key);
    writtenHere.remove(key);
  }

  private static Plant plant(SourceLine line) {
    List<String> words = line.words();
    String[] bars = words.size() < 3 ? new String[0] : words.get(2).split("-", -1);
    if (bars.length < 1 || bars.length > 2) {
      throw line.wrong("a plant is written like \"plant pedal-point 3-6 what to hear\"");
    }
    int first = (int) line.number(bars[0]);
    int last = (int) line.number(bars[bars.length - 1]);
    return new Plant(words.get(1), first, last, String.join(" ", words.subList(3, words.size())));
  }

  ScoreSection finish(
      TimeSignature songMeter, double songBpm, Key songKey, Map<String, Part> parts) {
    Map<String, String> named = new HashMap<>(settings);
    int bars = (int) opening.number(ScoreParser.take(opening, named, "bars"));
    String letter = ScoreParser.take(opening, named, "letter");
    SectionRole role =
        ScoreParser.word(
            opening,
            SectionRole.values(),
            ScoreParser.take(opening, named, "role"),
            r -> r.name().toLowerCase(Locale.ROOT));
    double early = opening.number(named.getOrDefault("early", "0"));
    Optional<Interval> up = Optional.ofNullable(named.get("up")).map(this::interval);
    TimeSignature meter =
        named.containsKey("meter") ? TimeSignature.parse(named.get("meter")) : songMeter;
    double bpm = named.containsKey("tempo") ? opening.number(named.get("tempo")) : songBpm;
    named.keySet().removeAll(Set.of("early", "up", "meter", "tempo"));
    if (!named.isEmpty() || bars < 1) {
      throw opening.wrong("a section has no \"%s\" and at least one bar", named.keySet());
    }
    LineParser parser = new LineParser(meter, bars, up);
    for (Plant plant : plants) {
      if (plant.firstBar() < 1 || plant.lastBar() > bars || plant.lastBar() < plant.firstBar()) {
        throw opening.wrong("plant %s lies outside the section's %d bars", plant, bars);
      }
    }
    Key key = up.map(i -> new Key(i.above(songKey.tonic()), songKey.mode())).orElse(songKey);
    List<Placed<ChordSymbol>> chords =
        lines.containsKey(CHORDS) ? parser.chords(lines.get(CHORDS)) : List.of();
    Map<String, Line> byPart = new HashMap<>();
    for (Part part : parts.values()) {
      line(parser, part).ifPresent(line -> byPart.put(part.name(), line));
    }
    return new ScoreSection(
        name,
        role,
        letter,
        bars,
        meter,
        bpm,
        early,
        up.map(Interval::semitones).orElse(0),
        key,
        chords,
        byPart,
        plants);
  }

  private Interval interval(String text) {
    try {
      return Interval.parse(text.replace('-', ' '));
    } catch (IllegalArgumentException wrong) {
      throw opening.wrong("%s", wrong.getMessage());
    }
  }

  private Optional<Line> line(LineParser parser, Part part) {
    List<SourceLine> plays = lines.getOrDefault(part.name() + " plays", List.of());
    List<SourceLine> follows = lines.getOrDefault(part.name() + " follows", List.of());
    Mix mix = part.mix();
    for (SourceLine line : lines.getOrDefault(part.name() + " mix", List.of())) {
      List<String> words = line.words();
      mix = mix.with(LineParser.mix(line, line.pairs(words.subList(1, words.size()))));
    }
    if (plays.isEmpty() && follows.isEmpty()) {
      return Optional.empty();
    }
    if (!follows.isEmpty()) {
      return Optional.of(new Line(List.of(), List.of(), Optional.of(parser.pattern(follows)), mix));
    }
    List<Placed<Written>> notes = parser.notes(plays);
    List<String> words = parser.syllables(lines.getOrDefault(part.name() + " sings", List.of()));
    if (!words.isEmpty() && words.size() != notes.size()) {
      throw plays
          .get(0)
          .wrong(
              "part %s has %d notes and %d syllables in section %s: %s",
              part.name(), notes.size(), words.size(), name, words);
    }
    return Optional.of(new Line(notes, words, Optional.empty(), mix));
  }
}
