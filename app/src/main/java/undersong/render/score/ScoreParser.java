package undersong.render.score;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import undersong.reading.TimeSignature;
import undersong.render.synth.Sound;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;

/**
 * Reads a score line by line. Everything wrong is told with its line number.
 *
 * <p>A line is a word and what belongs to it; {@code #} opens a remark. First come the facts of the
 * song, then its parts, then its sections; docs/demo.md describes each.
 */
public final class ScoreParser {
  private static final Set<String> FACTS =
      Set.of(
          "title", "artist", "meter", "tempo", "swing", "tuning", "offset", "tail", "gain", "fade",
          "seed", "key");

  private final Map<String, SourceLine> facts = new HashMap<>();
  private final Map<String, Part> parts = new LinkedHashMap<>();
  private final Map<String, SectionDraft> drafts = new LinkedHashMap<>();
  private SectionDraft draft;

  private ScoreParser() {}

  /**
   * @throws ScoreException naming the line that cannot be read
   */
  public static Score parse(String text) {
    ScoreParser parser = new ScoreParser();
    int number = 0;
    for (String raw : text.split("\n", -1)) {
      number++;
      // A # opens a remark at a line's beginning or after a space; F# and a score's pitches stay.
      String line = raw.replaceFirst("(^|\\s)# .*$", "").replaceFirst("^#.*$", "").strip();
      if (!line.isEmpty()) {
        parser.read(new SourceLine(number, line));
      }
    }
    return parser.finish(number);
  }

  private void read(SourceLine line) {
    String word = line.firstWord();
    if (word.equals("part")) {
      readPart(line);
    } else if (word.equals("section")) {
      readSection(line);
    } else if (draft != null) {
      draft.add(line, parts);
    } else if (FACTS.contains(word)) {
      facts.put(word, line);
    } else {
      throw line.wrong("\"%s\" is neither a fact of the song, a part nor a section", word);
    }
  }

  private void readPart(SourceLine line) {
    List<String> words = line.words();
    if (words.size() < 2) {
      throw line.wrong("a part needs a name");
    }
    String name = words.get(1);
    Map<String, String> named = line.pairs(words.subList(2, words.size()));
    Sound sound = word(line, Sound.values(), take(line, named, "sound"), Sound::word);
    PartRole role =
        word(
            line,
            PartRole.values(),
            take(line, named, "role"),
            r -> r.name().toLowerCase(Locale.ROOT));
    String[] range = named.getOrDefault("range", "C3..C5").split("\\.\\.", -1);
    named.remove("range");
    if (range.length != 2) {
      throw line.wrong("a range is written like G3..E4");
    }
    int lowest = LineParser.pitch(line, range[0]);
    int highest = LineParser.pitch(line, range[1]);
    parts.put(name, new Part(name, sound, role, lowest, highest, LineParser.mix(line, named)));
  }

  private void readSection(SourceLine line) {
    List<String> words = line.words();
    if (words.size() < 2 || drafts.containsKey(words.get(1))) {
      throw line.wrong("a section needs a name that no other section has");
    }
    Map<String, String> named = line.pairs(words.subList(2, words.size()));
    String like = named.remove("like");
    SectionDraft pattern = like == null ? null : drafts.get(like);
    if (like != null && pattern == null) {
      throw line.wrong("no section above is called \"%s\"", like);
    }
    draft = new SectionDraft(words.get(1), line, named, pattern);
    drafts.put(draft.name(), draft);
  }

  private Score finish(int lastLine) {
    SourceLine end = new SourceLine(lastLine, "end");
    TimeSignature meter = TimeSignature.parse(fact("meter", "4/4"));
    Key key = key(facts.getOrDefault("key", end), fact("key", ""));
    List<ScoreSection> sections = new ArrayList<>();
    for (SectionDraft each : drafts.values()) {
      sections.add(each.finish(meter, number("tempo", 120), key, parts));
    }
    if (sections.isEmpty()) {
      throw end.wrong("a score needs a section");
    }
    return new Score(
        fact("title", "Untitled"),
        fact("artist", "Unknown"),
        meter,
        number("tempo", 120),
        number("swing", 1),
        number("tuning", 0),
        number("offset", 0.3),
        number("tail", 2.5),
        number("gain", 0),
        (int) number("fade", 0),
        (long) number("seed", 1),
        List.copyOf(parts.values()),
        sections);
  }

  private String fact(String name, String fallback) {
    return facts.containsKey(name) ? facts.get(name).rest() : fallback;
  }

  private double number(String name, double fallback) {
    return facts.containsKey(name) ? facts.get(name).number(fact(name, "")) : fallback;
  }

  /** Reads "E harmonic-minor". */
  static Key key(SourceLine line, String text) {
    String[] words = text.split("\\s+", -1);
    if (words.length != 2) {
      throw line.wrong("a key is written like \"key E harmonic-minor\"");
    }
    Mode mode =
        word(
            line,
            Mode.values(),
            words[1],
            m -> m.name().toLowerCase(Locale.ROOT).replace('_', '-'));
    try {
      return new Key(NoteName.parse(words[0]), mode);
    } catch (IllegalArgumentException wrong) {
      throw line.wrong("%s", wrong.getMessage());
    }
  }

  static <E> E word(
      SourceLine line, E[] all, String text, java.util.function.Function<E, String> spelling) {
    List<String> known = new ArrayList<>();
    for (E each : all) {
      if (spelling.apply(each).equals(text)) {
        return each;
      }
      known.add(spelling.apply(each));
    }
    throw line.wrong("\"%s\" is not one of %s", text, known);
  }

  static String take(SourceLine line, Map<String, String> named, String name) {
    String value = named.remove(name);
    if (value == null) {
      throw line.wrong("\"%s\" is missing", name);
    }
    return value;
  }
}
