package undersong.theory;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * The chord types the program tells apart, each with its Harte shorthand and the semitones above
 * the root that it is made of. {@link #FIFTH} and {@link #ROOT} state no third.
 */
public enum ChordQuality {
  MAJOR("maj", 0, 4, 7),
  MINOR("min", 0, 3, 7),
  DIMINISHED("dim", 0, 3, 6),
  AUGMENTED("aug", 0, 4, 8),
  SUSPENDED_SECOND("sus2", 0, 2, 7),
  SUSPENDED_FOURTH("sus4", 0, 5, 7),
  DOMINANT_SEVENTH("7", 0, 4, 7, 10),
  MAJOR_SEVENTH("maj7", 0, 4, 7, 11),
  MINOR_SEVENTH("min7", 0, 3, 7, 10),
  MINOR_MAJOR_SEVENTH("minmaj7", 0, 3, 7, 11),
  DIMINISHED_SEVENTH("dim7", 0, 3, 6, 9),
  HALF_DIMINISHED_SEVENTH("hdim7", 0, 3, 6, 10),
  MAJOR_SIXTH("maj6", 0, 4, 7, 9),
  MINOR_SIXTH("min6", 0, 3, 7, 9),
  DOMINANT_NINTH("9", 0, 2, 4, 7, 10),
  MAJOR_NINTH("maj9", 0, 2, 4, 7, 11),
  MINOR_NINTH("min9", 0, 2, 3, 7, 10),
  FIFTH("5", 0, 7),
  ROOT("1", 0);

  private final String harte;
  private final int[] semitones;

  ChordQuality(String harte, int... semitones) {
    this.harte = harte;
    this.semitones = semitones;
  }

  /** Shorthand of the Harte grammar. */
  public String harte() {
    return harte;
  }

  public int[] semitones() {
    return semitones.clone();
  }

  public boolean contains(int semitonesAboveRoot) {
    int wanted = Math.floorMod(semitonesAboveRoot, 12);
    for (int s : semitones) {
      if (s == wanted) {
        return true;
      }
    }
    return false;
  }

  public boolean hasMajorThird() {
    return contains(4);
  }

  public boolean hasMinorThird() {
    return contains(3);
  }

  /** Neither third: suspended, open fifth or a root alone. */
  public boolean hasNoThird() {
    return !hasMajorThird() && !hasMinorThird();
  }

  /** The members as degrees above the root, spelled: b3, #5, bb7 (diminished seventh), 9. */
  public List<ChordDegree> degrees() {
    List<ChordDegree> degrees = new ArrayList<>();
    for (int s : semitones) {
      degrees.add(degreeOf(s));
    }
    Collections.sort(degrees);
    return degrees;
  }

  private ChordDegree degreeOf(int semitone) {
    if (semitone == 2 && this != SUSPENDED_SECOND) {
      return new ChordDegree(9, 0);
    }
    if (semitone == 9 && this == DIMINISHED_SEVENTH) {
      return new ChordDegree(7, -2);
    }
    return ChordDegree.ofSemitones(semitone);
  }

  /** Bit k set: k semitones above the root belong to the chord. */
  public int bits() {
    int bits = 0;
    for (int s : semitones) {
      bits |= 1 << s;
    }
    return bits;
  }
}
