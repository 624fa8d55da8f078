package undersong.theory;

import java.util.List;

/**
 * A spelled distance upward: letters passed and semitones, so that an augmented fourth and a
 * diminished fifth differ.
 *
 * @param steps letters passed, 0 = unison, 2 = third, 7 = octave
 * @param semitones sounding size; a diminished unison would be -1
 */
public record Interval(int steps, int semitones) {
  private static final int[] MAJOR = {0, 2, 4, 5, 7, 9, 11};
  private static final List<String> NAMES =
      List.of(
          "unison",
          "second",
          "third",
          "fourth",
          "fifth",
          "sixth",
          "seventh",
          "octave",
          "ninth",
          "tenth",
          "eleventh",
          "twelfth",
          "thirteenth",
          "fourteenth",
          "fifteenth");

  public Interval {
    if (steps < 0 || steps >= NAMES.size()) {
      throw new IllegalArgumentException(
          "Interval of %d steps must lie between unison (0) and two octaves (14)."
              .formatted(steps));
    }
    if (Math.abs(semitones - natural(steps)) > 4) {
      throw new IllegalArgumentException(
          "Interval of %d steps and %d semitones is altered beyond anything with a name."
              .formatted(steps, semitones));
    }
  }

  /** From the lower to the upper pitch, counted by letter; either order may be given. */
  public static Interval between(SpelledPitch one, SpelledPitch other) {
    boolean upward =
        other.step() != one.step() ? other.step() > one.step() : other.midi() >= one.midi();
    SpelledPitch low = upward ? one : other;
    SpelledPitch high = upward ? other : one;
    return new Interval(high.step() - low.step(), high.midi() - low.midi());
  }

  /** From one note name up to another, within the octave. */
  public static Interval above(NoteName low, NoteName high) {
    ChordDegree degree = ChordDegree.between(low, high);
    return new Interval(degree.number() - 1, degree.semitones());
  }

  /** Parses "minor third", "perfect fifth", "doubly augmented fourth"; throws on anything else. */
  public static Interval parse(String text) {
    int space = text.lastIndexOf(' ');
    int steps = NAMES.indexOf(text.substring(space + 1));
    if (space > 0 && steps >= 0) {
      for (int alteration = -4; alteration <= 4; alteration++) {
        Interval candidate = new Interval(steps, natural(steps) + alteration);
        if (candidate.toString().equals(text)) {
          return candidate;
        }
      }
    }
    throw new IllegalArgumentException(
        "Interval \"%s\" must be a quality and a name, such as minor third or perfect fifth."
            .formatted(text));
  }

  /** Distance on the line of fifths: 1 for a fifth, -3 for a minor third, 6 for a tritone up. */
  public int fifths() {
    return 7 * semitones - 12 * steps;
  }

  public NoteName above(NoteName low) {
    return low.up(fifths());
  }

  private static int natural(int steps) {
    return MAJOR[steps % 7] + 12 * (steps / 7);
  }

  private boolean isPerfectKind() {
    int step = steps % 7;
    return step == 0 || step == 3 || step == 4;
  }

  /** As a musician says it: "minor third", "augmented fourth". */
  @Override
  public String toString() {
    int alteration = semitones - natural(steps);
    String quality;
    if (isPerfectKind()) {
      quality = alteration == 0 ? "perfect" : altered(alteration);
    } else if (alteration == 0) {
      quality = "major";
    } else {
      quality = alteration == -1 ? "minor" : altered(alteration < 0 ? alteration + 1 : alteration);
    }
    return quality + " " + NAMES.get(steps);
  }

  private static String altered(int alteration) {
    String times =
        switch (Math.abs(alteration)) {
          case 1 -> "";
          case 2 -> "doubly ";
          case 3 -> "triply ";
          default -> "quadruply ";
        };
    return times + (alteration < 0 ? "diminished" : "augmented");
  }
}
