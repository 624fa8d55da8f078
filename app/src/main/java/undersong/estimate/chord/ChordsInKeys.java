package undersong.estimate.chord;

/**
 * How common each chord is above a tonic in songs: counted over chord changes in the charts marked
 * for learning of the McGill Billboard annotations (first 300 files by name, CC0; J. A. Burgoyne,
 * J. Wild, I. Fujinaga, ISMIR 2011), each key region counting about the same, in parts per ten
 * thousand.
 */
final class ChordsInKeys {
  /** A chord no chart had still counts this many parts per ten thousand. */
  private static final double UNSEEN = 1.5;

  static final int KEYS = 24;

  // [major, minor tonic triad][semitones above the tonic][quality, in the order of ChordStates]
  private static final int[][][] PARTS = {
    {
      {2449, 21, 394, 186, 30, 2, 0, 0, 6, 11, 47, 47, 0, 45, 80},
      {46, 2, 3, 9, 3, 5, 0, 0, 0, 0, 0, 0, 0, 0, 4},
      {107, 281, 104, 7, 270, 0, 11, 2, 0, 0, 11, 1, 1, 1, 5},
      {106, 6, 9, 15, 10, 9, 3, 0, 0, 0, 0, 12, 0, 9, 1},
      {38, 99, 51, 1, 108, 0, 2, 0, 0, 0, 4, 0, 0, 0, 0},
      {1637, 48, 182, 119, 36, 0, 0, 2, 0, 5, 16, 22, 21, 20, 16},
      {19, 0, 8, 1, 1, 12, 1, 5, 0, 0, 2, 0, 0, 0, 0},
      {945, 22, 514, 4, 55, 0, 0, 0, 1, 2, 195, 13, 2, 6, 8},
      {75, 2, 18, 24, 0, 3, 0, 1, 0, 0, 4, 2, 0, 0, 2},
      {43, 448, 73, 2, 155, 0, 0, 0, 0, 0, 20, 0, 0, 3, 7},
      {346, 5, 28, 5, 5, 1, 0, 0, 0, 1, 17, 4, 0, 17, 17},
      {7, 1, 11, 0, 14, 8, 3, 0, 0, 0, 3, 3, 0, 2, 4},
    },
    {
      {85, 2203, 23, 19, 733, 0, 0, 0, 0, 0, 43, 0, 16, 144, 125},
      {8, 0, 27, 15, 0, 0, 0, 0, 0, 0, 0, 0, 13, 0, 0},
      {33, 35, 11, 0, 69, 0, 37, 0, 0, 0, 1, 0, 0, 22, 1},
      {429, 1, 23, 16, 0, 0, 0, 0, 0, 0, 0, 0, 0, 10, 51},
      {7, 8, 3, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 6, 1},
      {171, 298, 109, 0, 328, 0, 5, 0, 0, 20, 73, 14, 5, 40, 55},
      {7, 0, 0, 5, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2, 15},
      {235, 255, 607, 10, 239, 0, 20, 0, 0, 0, 115, 0, 0, 13, 33},
      {1150, 0, 37, 245, 5, 0, 2, 0, 0, 6, 14, 14, 11, 31, 48},
      {6, 0, 0, 0, 3, 0, 3, 0, 0, 0, 0, 0, 0, 1, 1},
      {1161, 0, 27, 13, 5, 0, 0, 0, 0, 25, 131, 55, 0, 19, 50},
      {0, 14, 21, 9, 0, 2, 0, 5, 0, 0, 0, 0, 0, 1, 0},
    }
  };

  // Semitones from one root up to the next, in parts per thousand of all changes; same source.
  private static final int[] MOTION = {95, 18, 127, 38, 19, 274, 5, 214, 40, 56, 92, 22};

  /** {@code [key][state]}: log-probability; keys 0 to 11 major, 12 to 23 minor. */
  static final float[][] LOG = logs();

  /** {@code [old root][new root]}, 12 = no chord: log of how much likelier than by chance. */
  static final float[][] LOG_MOTION = logMotion();

  private ChordsInKeys() {}

  private static float[][] logs() {
    float[][] logs = new float[KEYS][ChordStates.COUNT];
    int qualities = ChordStates.QUALITIES.size();
    for (int key = 0; key < KEYS; key++) {
      double total = 0;
      for (int state = 0; state < ChordStates.NO_CHORD; state++) {
        total += parts(key, state, qualities);
      }
      for (int state = 0; state < ChordStates.NO_CHORD; state++) {
        logs[key][state] = (float) Math.log(parts(key, state, qualities) / total);
      }
      logs[key][ChordStates.NO_CHORD] = (float) Math.log(0.005);
    }
    return logs;
  }

  private static double parts(int key, int state, int qualities) {
    int degree = Math.floorMod(ChordStates.root(state) - key, 12);
    return PARTS[key / 12][degree][state % qualities] + UNSEEN;
  }

  private static float[][] logMotion() {
    float[][] logs = new float[13][13];
    for (int from = 0; from < 12; from++) {
      for (int to = 0; to < 12; to++) {
        logs[from][to] = (float) Math.log(MOTION[Math.floorMod(to - from, 12)] * 12 / 1000.0);
      }
    }
    return logs;
  }
}
