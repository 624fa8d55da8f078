package undersong.theory;

import java.util.List;

/**
 * How common each chord is above a tonic in songs: counted over chord changes in the charts marked
 * for learning of the McGill Billboard annotations (first 300 files by name, CC0; J. A. Burgoyne,
 * J. Wild, I. Fujinaga, ISMIR 2011), each key region counting about the same.
 */
public final class ChordShares {
  private static final List<ChordQuality> COUNTED =
      List.of(
          ChordQuality.MAJOR,
          ChordQuality.MINOR,
          ChordQuality.DOMINANT_SEVENTH,
          ChordQuality.MAJOR_SEVENTH,
          ChordQuality.MINOR_SEVENTH,
          ChordQuality.DIMINISHED,
          ChordQuality.HALF_DIMINISHED_SEVENTH,
          ChordQuality.DIMINISHED_SEVENTH,
          ChordQuality.AUGMENTED,
          ChordQuality.SUSPENDED_SECOND,
          ChordQuality.SUSPENDED_FOURTH,
          ChordQuality.MAJOR_SIXTH,
          ChordQuality.MINOR_SIXTH,
          ChordQuality.FIFTH,
          ChordQuality.ROOT);

  /** A chord no chart had still counts this many parts per ten thousand. */
  private static final double UNSEEN = 1.5;

  // [major, minor tonic triad][semitones above the tonic][quality, in the order above]:
  // parts per ten thousand
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

  // Semitones from one root up to the next: parts per thousand of all changes; same source.
  private static final int[] MOTION = {95, 18, 127, 38, 19, 274, 5, 214, 40, 56, 92, 22};

  private ChordShares() {}

  /** The qualities that were counted. */
  public static List<ChordQuality> qualities() {
    return COUNTED;
  }

  /**
   * Share of a chord among the chord changes of songs on a major or minor tonic; never 0. A quality
   * that was not counted takes the share of the counted one nearest to it.
   */
  public static double share(boolean minorTonic, int semitonesAboveTonic, ChordQuality quality) {
    int[] parts = PARTS[minorTonic ? 1 : 0][Math.floorMod(semitonesAboveTonic, 12)];
    return (parts[counted(quality)] + UNSEEN) / 10_000;
  }

  /** How much likelier than by chance a root moves up by this many semitones. */
  public static double motion(int semitonesUp) {
    return MOTION[Math.floorMod(semitonesUp, 12)] * 12 / 1000.0;
  }

  /** Place of a quality among {@link #qualities}, or of the counted one nearest to it. */
  public static int counted(ChordQuality quality) {
    int best = 0;
    int fewest = Integer.MAX_VALUE;
    for (int q = 0; q < COUNTED.size(); q++) {
      int differences = Integer.bitCount(COUNTED.get(q).bits() ^ quality.bits());
      if (differences < fewest) {
        fewest = differences;
        best = q;
      }
    }
    return best;
  }
}
