package undersong.estimate.chord;

/** What decoding gives: the chord of each step, its probability there, and the key around it. */
final class Decoding {
  private final int[] path;
  private final float[][] posteriors;
  private final KeyContext keys;

  Decoding(int[] path, float[][] posteriors, KeyContext keys) {
    this.path = path;
    this.posteriors = posteriors;
    this.keys = keys;
  }

  int steps() {
    return path.length;
  }

  int state(int step) {
    return path[step];
  }

  /** Mean probability of a chord over [from, to) steps. */
  double probability(int state, int from, int to) {
    double sum = 0;
    for (int step = from; step < to; step++) {
      sum += posteriors[step][state];
    }
    return Math.min(1, sum / (to - from));
  }

  KeyContext keys() {
    return keys;
  }
}
