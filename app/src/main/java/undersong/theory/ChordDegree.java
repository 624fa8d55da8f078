package undersong.theory;

import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A note counted from the root of a chord: number 1 to 13 of the major scale on that root, with an
 * alteration (b3, 5, #11, bb7). Numbers above 7 lie in the second octave.
 *
 * @param number 1 to 13
 * @param alteration semitones up (positive) or down, -3 to 3
 */
public record ChordDegree(int number, int alteration) implements Comparable<ChordDegree> {
  private static final Pattern SPELLING = Pattern.compile("(b*|#*)([1-9]|1[0-3])");
  private static final int[] MAJOR = {0, 2, 4, 5, 7, 9, 11};
  private static final int[] FIFTHS = {0, 2, 4, -1, 1, 3, 5};
  private static final String[] USUAL = {
    "1", "b2", "2", "b3", "3", "4", "b5", "5", "#5", "6", "b7", "7", "8", "b9", "9", "#9", "10",
    "11", "#11", "12", "b13", "13"
  };
  private static final List<ChordDegree> BY_SEMITONES =
      Arrays.stream(USUAL).map(ChordDegree::parse).toList();

  public ChordDegree {
    if (number < 1 || number > 13 || alteration < -3 || alteration > 3) {
      throw new IllegalArgumentException(
          "Chord degree (number %d, alteration %d) needs number 1 to 13 and alteration -3 to 3."
              .formatted(number, alteration));
    }
  }

  /** Parses "b3", "5", "#11"; throws on anything else, mixed accidentals included. */
  public static ChordDegree parse(String text) {
    Matcher matcher = SPELLING.matcher(text);
    if (!matcher.matches()) {
      throw new IllegalArgumentException(
          "Chord degree \"%s\" must be flats or sharps and a number 1 to 13, such as b7 or #11."
              .formatted(text));
    }
    String signs = matcher.group(1);
    return new ChordDegree(
        Integer.parseInt(matcher.group(2)),
        signs.startsWith("#") ? signs.length() : -signs.length());
  }

  /** The usual spelling of a note 0 to 21 semitones above the root (8 = #5, 13 = b9). */
  public static ChordDegree ofSemitones(int semitones) {
    return BY_SEMITONES.get(semitones);
  }

  /** Number 1 to 7 of a spelled note above a root; throws beyond three accidentals. */
  public static ChordDegree between(NoteName root, NoteName note) {
    int distance = note.fifths() - root.fifths();
    for (int number = 1; number <= 7; number++) {
      int rest = distance - FIFTHS[number - 1];
      if (rest % 7 == 0) {
        return new ChordDegree(number, rest / 7);
      }
    }
    throw new AssertionError(distance);
  }

  /**
   * What a sounding note is to a chord: its own member's degree if it is one, else the tension it
   * makes (9, #11, b13; a seventh over a triad stays 7).
   */
  public static ChordDegree over(ChordSymbol.Chord chord, NoteName note) {
    int semitones = Math.floorMod(note.pitchClass() - chord.root().pitchClass(), 12);
    for (ChordDegree member : chord.degrees()) {
      if (Math.floorMod(member.semitones(), 12) == semitones) {
        return member;
      }
    }
    int fifths = note.fifths() - chord.root().fifths();
    boolean writtenNear = fifths >= -8 && fifths <= 10;
    ChordDegree near =
        writtenNear ? between(chord.root(), note) : ofSemitones(semitones == 8 ? 20 : semitones);
    boolean tension = near.number == 2 || near.number == 4 || near.number == 6;
    return tension ? new ChordDegree(near.number + 7, near.alteration) : near;
  }

  /** Above the root, 0 to 21 (1 to 13 unaltered); a "b1" gives -1. */
  public int semitones() {
    return MAJOR[(number - 1) % 7] + 12 * ((number - 1) / 7) + alteration;
  }

  /** The spelled note this degree is above a root. */
  public NoteName above(NoteName root) {
    return root.up(FIFTHS[(number - 1) % 7] + 7 * alteration);
  }

  @Override
  public int compareTo(ChordDegree other) {
    return number != other.number
        ? Integer.compare(number, other.number)
        : Integer.compare(alteration, other.alteration);
  }

  @Override
  public String toString() {
    return (alteration >= 0 ? "#" : "b").repeat(Math.abs(alteration)) + number;
  }
}
