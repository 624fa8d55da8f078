package undersong.technique.rhythm;

/**
 * How much a rhythm leans against its meter: each note that is followed by a silent place of more
 * weight adds the difference of their weights. Places weigh 0 on the bar line and one less with
 * every division of the bar.
 *
 * <p>Source: H. C. Longuet-Higgins, C. S. Lee, "The rhythmic interpretation of monophonic music",
 * Music Perception 1(4), 1984 (from memory).
 */
final class Syncopation {
  private Syncopation() {}

  /** Weights of the eighths of a bar. */
  static int[] weights(int beats, int eighthsPerBeat) {
    int[] weights = new int[beats * eighthsPerBeat];
    boolean halves = beats % 2 == 0 && beats > 2;
    for (int i = 1; i < weights.length; i++) {
      boolean onBeat = i % eighthsPerBeat == 0;
      boolean onHalf = halves && i == weights.length / 2;
      int beat = halves ? -2 : -1;
      weights[i] = onHalf ? -1 : onBeat ? beat : beat - 1;
    }
    return weights;
  }

  /**
   * Syncopation of one bar.
   *
   * @param onsets read; one entry per eighth
   * @param nextBegins whether a note begins on the next bar line
   */
  static int ofBar(boolean[] onsets, boolean nextBegins, int[] weights) {
    int sum = 0;
    for (int i = 0; i < onsets.length; i++) {
      if (!onsets[i]) {
        continue;
      }
      int heaviest = Integer.MIN_VALUE;
      int k = i + 1;
      while (k < onsets.length && !onsets[k]) {
        heaviest = Math.max(heaviest, weights[k]);
        k++;
      }
      if (k == onsets.length && !nextBegins) {
        heaviest = Math.max(heaviest, 0);
      }
      sum += heaviest > weights[i] ? heaviest - weights[i] : 0;
    }
    return sum;
  }
}
