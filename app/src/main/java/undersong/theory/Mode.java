package undersong.theory;

/** The scales a key can stand in. Minor's three forms share a tonic triad and a parent family. */
public enum Mode {
  MAJOR("major", 0, 2, 4, 5, 7, 9, 11),
  NATURAL_MINOR("natural minor", 0, 2, 3, 5, 7, 8, 10),
  HARMONIC_MINOR("harmonic minor", 0, 2, 3, 5, 7, 8, 11),
  MELODIC_MINOR("melodic minor", 0, 2, 3, 5, 7, 9, 11),
  DORIAN("dorian", 0, 2, 3, 5, 7, 9, 10),
  MIXOLYDIAN("mixolydian", 0, 2, 4, 5, 7, 9, 10),
  PHRYGIAN("phrygian", 0, 1, 3, 5, 7, 8, 10),
  LYDIAN("lydian", 0, 2, 4, 6, 7, 9, 11);

  private final String words;
  private final int[] semitones;

  Mode(String words, int... semitones) {
    this.words = words;
    this.semitones = semitones;
  }

  /** As a musician says it. */
  public String words() {
    return words;
  }

  /** Semitones above the tonic of scale step 0 to 6. */
  public int semitonesOfStep(int step) {
    return semitones[step];
  }

  public boolean hasMinorThird() {
    return semitones[2] == 3;
  }

  /** One of the three forms of minor (dorian and phrygian are modes of their own). */
  public boolean isMinor() {
    return this == NATURAL_MINOR || this == HARMONIC_MINOR || this == MELODIC_MINOR;
  }

  /** Whether this many semitones above the tonic belong to the scale. */
  public boolean contains(int semitonesAboveTonic) {
    int wanted = Math.floorMod(semitonesAboveTonic, 12);
    for (int s : semitones) {
      if (s == wanted) {
        return true;
      }
    }
    return false;
  }
}
