package undersong.theory;

/**
 * Key profiles as published: how well, or how often, each semitone above the tonic stands in a
 * major or a minor key. Each keeps the scale of its paper; index 0 is the tonic. Numbers typed from
 * the papers named beside them (volumes from memory).
 */
public enum KeyProfiles {
  /**
   * C. L. Krumhansl, E. J. Kessler, Psychological Review 89, 1982: probe-tone ratings. Some copies
   * print 2.33 for the raised tonic of major; 2.23 is the 1982 value.
   */
  KRUMHANSL_KESSLER_1982(
      new double[] {6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88},
      new double[] {6.33, 2.68, 3.52, 5.38, 2.6, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17}),
  /** D. Temperley, Music Perception 17, 1999: weights set by hand. */
  TEMPERLEY_1999(
      new double[] {5, 2, 3.5, 2, 4.5, 4, 2, 4.5, 2, 3.5, 1.5, 4},
      new double[] {5, 2, 3.5, 4.5, 2, 4, 2, 4.5, 3.5, 2, 1.5, 4}),
  /** D. Temperley, Music and Probability, 2007: share of segments that hold each note. */
  TEMPERLEY_KOSTKA_PAYNE_2007(
      new double[] {0.748, 0.06, 0.488, 0.082, 0.67, 0.46, 0.096, 0.715, 0.104, 0.366, 0.057, 0.4},
      new double[] {
        0.712, 0.084, 0.474, 0.618, 0.049, 0.46, 0.105, 0.747, 0.404, 0.067, 0.133, 0.33
      }),
  /** J. Albrecht, D. Shanahan, Music Perception 31, 2013: note shares. */
  ALBRECHT_SHANAHAN_2013(
      new double[] {
        0.238, 0.006, 0.111, 0.006, 0.137, 0.094, 0.016, 0.214, 0.009, 0.08, 0.008, 0.081
      },
      new double[] {
        0.22, 0.006, 0.104, 0.123, 0.019, 0.103, 0.012, 0.214, 0.062, 0.022, 0.061, 0.052
      }),
  /** D. Temperley, T. de Clercq, J. New Music Research 42, 2013: rock, notes of the chords. */
  TEMPERLEY_DE_CLERCQ_2013_HARMONY(
      new double[] {
        0.231, 0.002, 0.091, 0.004, 0.149, 0.111, 0.004, 0.193, 0.004, 0.126, 0.011, 0.076
      },
      new double[] {
        0.202, 0.006, 0.102, 0.127, 0.047, 0.113, 0.005, 0.177, 0.046, 0.051, 0.09, 0.034
      }),
  /** D. Temperley, T. de Clercq, J. New Music Research 42, 2013: rock, notes of the tunes. */
  TEMPERLEY_DE_CLERCQ_2013_MELODY(
      new double[] {
        0.223, 0.001, 0.158, 0.015, 0.194, 0.071, 0.002, 0.169, 0.003, 0.119, 0.008, 0.035
      },
      new double[] {
        0.317, 0.001, 0.09, 0.159, 0.046, 0.097, 0.007, 0.131, 0.009, 0.047, 0.087, 0.009
      });

  private final double[] major;
  private final double[] minor;

  KeyProfiles(double[] major, double[] minor) {
    this.major = major;
    this.minor = minor;
  }

  /** Twelve weights of major keys, a copy. */
  public double[] major() {
    return major.clone();
  }

  /** Twelve weights of minor keys, a copy. */
  public double[] minor() {
    return minor.clone();
  }
}
