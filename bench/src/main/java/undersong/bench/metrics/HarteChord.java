package undersong.bench.metrics;

import static java.util.Map.entry;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads chord labels of the Harte grammar into the code they are compared in, independently of the
 * program's own parser.
 *
 * <p>Source: C. Harte, "Towards Automatic Extraction of Harmony Information from Music Signals",
 * thesis, Queen Mary, 2010; reductions (ninths to their seventh ...) as in mir_eval.
 */
public final class HarteChord {
  private static final Map<String, Integer> QUALITIES =
      Map.ofEntries(
          entry("maj", bits(0, 4, 7)),
          entry("min", bits(0, 3, 7)),
          entry("aug", bits(0, 4, 8)),
          entry("dim", bits(0, 3, 6)),
          entry("sus4", bits(0, 5, 7)),
          entry("sus2", bits(0, 2, 7)),
          entry("7", bits(0, 4, 7, 10)),
          entry("maj7", bits(0, 4, 7, 11)),
          entry("min7", bits(0, 3, 7, 10)),
          entry("minmaj7", bits(0, 3, 7, 11)),
          entry("maj6", bits(0, 4, 7, 9)),
          entry("6", bits(0, 4, 7, 9)),
          entry("min6", bits(0, 3, 7, 9)),
          entry("dim7", bits(0, 3, 6, 9)),
          entry("hdim7", bits(0, 3, 6, 10)),
          entry("maj9", bits(0, 4, 7, 11)),
          entry("min9", bits(0, 3, 7, 10)),
          entry("9", bits(0, 4, 7, 10)),
          entry("min11", bits(0, 3, 7, 10)),
          entry("11", bits(0, 4, 7, 10)),
          entry("maj11", bits(0, 4, 7, 11)),
          entry("maj13", bits(0, 4, 7, 11)),
          entry("min13", bits(0, 3, 7, 10)),
          entry("13", bits(0, 4, 7, 10)),
          entry("1", bits(0)),
          entry("5", bits(0, 7)),
          entry("", bits(0)));
  private static final Pattern LABEL =
      Pattern.compile("([A-G][#b]*)(?::([^(/]*)(?:\\(([^)]*)\\))?)?(?:/(.+))?");
  private static final int[] MAJOR = {0, 2, 4, 5, 7, 9, 11};

  private HarteChord() {}

  private static int bits(int... semitones) {
    int bits = 0;
    for (int s : semitones) {
      bits |= 1 << s;
    }
    return bits;
  }

  /** The code of a label; throws where the label does not follow the grammar. */
  public static ChordCode parse(String label) {
    return read(label)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "Chord label \"%s\" does not follow Harte's grammar.".formatted(label)));
  }

  static Optional<ChordCode> read(String label) {
    if (label.equals("N")) {
      return Optional.of(ChordCode.NONE);
    }
    if (label.equals("X")) {
      return Optional.of(ChordCode.UNKNOWN);
    }
    Matcher parts = LABEL.matcher(label);
    if (!parts.matches()) {
      return Optional.empty();
    }
    String quality = parts.group(2) == null ? "maj" : parts.group(2);
    Integer bits = QUALITIES.get(quality);
    if (bits == null) {
      return Optional.empty();
    }
    int all = bits;
    if (parts.group(3) != null) {
      for (String degree : parts.group(3).split(",")) {
        String name = degree.strip();
        boolean omitted = name.startsWith("*");
        int semitones = semitones(omitted ? name.substring(1) : name);
        if (semitones == NO_DEGREE) {
          return Optional.empty();
        }
        if (semitones < 12) {
          all = omitted ? all & ~(1 << semitones) : all | 1 << semitones;
        }
      }
    }
    int bass = parts.group(4) == null ? 0 : semitones(parts.group(4));
    return bass == NO_DEGREE
        ? Optional.empty()
        : Optional.of(ChordCode.of(pitchClass(parts.group(1)), all, Math.floorMod(bass, 12)));
  }

  private static final List<String> USUAL =
      List.of(
          "maj", "min", "7", "maj7", "min7", "maj6", "min6", "dim", "aug", "sus4", "sus2", "hdim7",
          "dim7", "minmaj7", "5", "1");
  private static final List<String> DEGREES =
      List.of("1", "b2", "2", "b3", "3", "4", "b5", "5", "b6", "6", "b7", "7");

  /** A label that {@link #parse} reads back as the same code. */
  public static String print(ChordCode chord) {
    if (!chord.sounds()) {
      return chord.known() ? "N" : "X";
    }
    String root = "C Db D Eb E F Gb G Ab A Bb B".split(" ")[chord.root()];
    String bass = chord.bass() == 0 ? "" : "/" + DEGREES.get(chord.bass());
    for (String quality : USUAL) {
      int bits = QUALITIES.get(quality);
      if (ChordCode.of(0, bits, chord.bass()).bits() == chord.bits()) {
        return root + ":" + quality + bass;
      }
    }
    StringBuilder degrees = new StringBuilder();
    for (int s = 1; s < 12; s++) {
      if ((chord.bits() & 1 << s) != 0) {
        degrees.append(degrees.isEmpty() ? "" : ",").append(DEGREES.get(s));
      }
    }
    return root + ":1(" + degrees + ")" + bass;
  }

  private static final int NO_DEGREE = Integer.MIN_VALUE;

  /** Pitch class of a spelled note such as F# or Bb. */
  public static int pitchClass(String name) {
    int natural = MAJOR["CDEFGAB".indexOf(name.charAt(0))];
    int altered = name.substring(1).chars().map(s -> s == '#' ? 1 : -1).sum();
    return Math.floorMod(natural + altered, 12);
  }

  private static int semitones(String degree) {
    int altered = 0;
    int i = 0;
    while (i < degree.length() && (degree.charAt(i) == 'b' || degree.charAt(i) == '#')) {
      altered += degree.charAt(i) == '#' ? 1 : -1;
      i++;
    }
    String number = degree.substring(i);
    if (!number.matches("[1-9]|1[0-3]")) {
      return NO_DEGREE;
    }
    int steps = Integer.parseInt(number) - 1;
    return MAJOR[steps % 7] + 12 * (steps / 7) + altered;
  }
}
