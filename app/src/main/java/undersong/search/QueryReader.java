package undersong.search;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.search.Wanted.ChordWanted;
import undersong.search.Wanted.Figure;
import undersong.search.Wanted.Range;
import undersong.technique.Technique;
import undersong.theory.ChordQuality;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.NumeralSettings;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;
import undersong.theory.ScaleDegree;

/**
 * Reads a question in a musician's words. The grammar stands in docs/search.md:
 *
 * <pre>
 * ferry by night crew          words of the title; of the artist after "by"
 * in d minor, in 3/4           key, mode or meter
 * at 90-120, from 1990-1999    beats a minute; years
 * with key-lift, without riff  techniques
 * chords I iii IV iv           numerals, degrees (1 5 6 4), ? for any; V6, IV over 5 ask for the bass
 * loop I V vi IV               the same, beginning anywhere, going round
 * tune do re mi, bass la sol   syllables or degrees; steps +2 +2 -1 for any key
 * rhythm 1 0.5 0.5             beats from note to note, after tune, bass or steps
 * </pre>
 */
public final class QueryReader {
  private static final Set<String> HEADS =
      Set.of(
          "by", "in", "at", "from", "with", "without", "chords", "loop", "tune", "bass", "steps",
          "rhythm");
  private static final Pattern RANGE =
      Pattern.compile("(\\d+(?:\\.\\d+)?)(?:-(\\d+(?:\\.\\d+)?))?");
  private static final Key ANY = new Key(new NoteName(0), Mode.MAJOR);
  private static final List<String> SYLLABLES =
      List.of("do", "di", "re", "ri", "mi", "fa", "fi", "sol", "si", "la", "li", "ti");

  private final List<String> words = new ArrayList<>();
  private final List<String> artist = new ArrayList<>();
  private String key = "";
  private String meter = "";
  private Optional<Range> bpm = Optional.empty();
  private Optional<Range> years = Optional.empty();
  private final Set<Technique> with = new HashSet<>();
  private final Set<Technique> without = new HashSet<>();
  private final List<ChordWanted> chords = new ArrayList<>();
  private boolean round;
  private boolean inBass;
  private final List<Integer> degrees = new ArrayList<>();
  private final List<Integer> steps = new ArrayList<>();
  private final List<Double> beats = new ArrayList<>();

  private QueryReader() {}

  /** Throws {@link IllegalArgumentException} naming the word that is not understood. */
  public static Wanted read(String text) {
    QueryReader reader = new QueryReader();
    String head = "";
    List<String> phrase = new ArrayList<>();
    for (String word : text.strip().split("[\\s,]+", -1)) {
      if (HEADS.contains(word.toLowerCase(Locale.ROOT))) {
        reader.take(head, phrase);
        head = word.toLowerCase(Locale.ROOT);
        phrase.clear();
      } else if (!word.isEmpty()) {
        phrase.add(word);
      }
    }
    reader.take(head, phrase);
    return reader.wanted();
  }

  private void take(String head, List<String> phrase) {
    if (phrase.isEmpty() && !head.isEmpty()) {
      throw new IllegalArgumentException(
          "\"%s\" must be followed by what is looked for.".formatted(head));
    }
    switch (head) {
      case "" -> phrase.forEach(word -> words.add(word.toLowerCase(Locale.ROOT)));
      case "by" -> artist.addAll(phrase);
      case "in" -> keyOrMeter(phrase);
      case "at" -> bpm = Optional.of(range(head, phrase));
      case "from" -> years = Optional.of(range(head, phrase));
      case "with" -> phrase.forEach(word -> with.add(technique(word)));
      case "without" -> phrase.forEach(word -> without.add(technique(word)));
      case "chords", "loop" -> {
        round = round || head.equals("loop");
        Numerals.split(String.join(" ", phrase)).forEach(word -> chords.add(chord(word)));
      }
      case "tune", "bass" -> {
        inBass = head.equals("bass");
        phrase.forEach(word -> degrees.add(degree(word)));
      }
      case "steps" -> phrase.forEach(word -> steps.add(step(word)));
      case "rhythm" -> phrase.forEach(word -> beats.add(number(word)));
      default -> throw new AssertionError(head);
    }
  }

  private void keyOrMeter(List<String> phrase) {
    String text = String.join(" ", phrase);
    if (text.contains("/")) {
      meter = text;
    } else {
      key = text.toLowerCase(Locale.ROOT);
    }
  }

  private static Range range(String head, List<String> phrase) {
    Matcher matcher = RANGE.matcher(String.join("", phrase));
    if (!matcher.matches()) {
      throw new IllegalArgumentException(
          "\"%s %s\" must be a number or two, such as %s 90-120."
              .formatted(head, String.join(" ", phrase), head));
    }
    double from = Double.parseDouble(matcher.group(1));
    return new Range(from, matcher.group(2) == null ? from : Double.parseDouble(matcher.group(2)));
  }

  private static Technique technique(String word) {
    try {
      return Technique.named(word.toLowerCase(Locale.ROOT));
    } catch (IllegalArgumentException unknown) {
      throw new IllegalArgumentException(
          "\"%s\" is no technique; their ids stand in docs/techniques.md, such as key-lift."
              .formatted(word),
          unknown);
    }
  }

  /** A numeral; a bare degree for any quality; ? for any chord. */
  private static ChordWanted chord(String word) {
    if (word.equals("?")) {
      return ChordWanted.ANY;
    }
    if (word.matches("[b#]*[1-7]")) {
      return new ChordWanted(
          OptionalInt.of(ScaleDegree.parse(word).semitones()),
          OptionalInt.empty(),
          Optional.empty(),
          OptionalInt.empty());
    }
    RomanNumeral numeral;
    try {
      numeral = Numerals.parse(word, ANY, NumeralSettings.DEFAULTS);
    } catch (IllegalArgumentException wrong) {
      throw new IllegalArgumentException(
          "\"%s\" is no chord to look for: numerals (I, iv, bVII, V7/V, I6, IV over 5, 5(no 3rd)), degrees (1, b6) or ? are understood."
              .formatted(word),
          wrong);
    }
    int above = numeral.appliedTo().map(ScaleDegree::semitones).orElse(0);
    ChordQuality quality = numeral.quality();
    boolean plain = quality == ChordQuality.MAJOR || quality == ChordQuality.MINOR;
    boolean bassAsked = numeral.isInverted();
    return new ChordWanted(
        OptionalInt.of((above + numeral.root().semitones()) % 12),
        plain ? OptionalInt.of(quality.hasMajorThird() ? 4 : 3) : OptionalInt.empty(),
        plain ? Optional.empty() : Optional.of(quality.harte()),
        bassAsked
            ? OptionalInt.of((above + numeral.bass().semitones()) % 12)
            : OptionalInt.empty());
  }

  /** A movable-do syllable from do, or a degree of the major scale. */
  private static int degree(String word) {
    String lower = word.toLowerCase(Locale.ROOT);
    int place =
        switch (lower) {
          case "ra" -> 1;
          case "me" -> 3;
          case "se" -> 6;
          case "le" -> 8;
          case "te" -> 10;
          case "so" -> 7;
          default -> SYLLABLES.indexOf(lower);
        };
    if (place >= 0) {
      return place;
    }
    if (lower.matches("[b#]*[1-7]")) {
      return ScaleDegree.parse(lower).semitones();
    }
    throw new IllegalArgumentException(
        "\"%s\" is neither a syllable counted from do (do di re ... ti) nor a degree (1, b3)."
            .formatted(word));
  }

  private static int step(String word) {
    if (!word.matches("[+-]?\\d{1,2}")) {
      throw new IllegalArgumentException(
          "\"%s\" is no step: semitones up or down, such as +2 or -1.".formatted(word));
    }
    return Integer.parseInt(word.startsWith("+") ? word.substring(1) : word);
  }

  private static double number(String word) {
    try {
      return Double.parseDouble(word);
    } catch (NumberFormatException wrong) {
      throw new IllegalArgumentException(
          "\"%s\" is no length in beats, such as 0.5.".formatted(word), wrong);
    }
  }

  private Wanted wanted() {
    boolean figure = !degrees.isEmpty() || !steps.isEmpty();
    if (!beats.isEmpty() && !figure) {
      throw new IllegalArgumentException("A rhythm belongs to tune, bass or steps.");
    }
    return new Wanted(
        words,
        String.join(" ", artist).toLowerCase(Locale.ROOT),
        key,
        meter,
        bpm,
        years,
        with,
        without,
        chords,
        round,
        figure ? Optional.of(new Figure(inBass, degrees, steps, beats)) : Optional.empty());
  }
}
