package undersong.expectation;

/** Arithmetic on probabilities of the next symbol. */
final class Odds {
  private static final double LEAST_ENTROPY = 1e-6;

  private Odds() {}

  /** Bits of surprise at an outcome of this probability. */
  static double bits(double probability) {
    return Math.max(0, -Math.log(probability) / Math.log(2));
  }

  /**
   * Two opinions as one: their weighted geometric mean, the surer one (of lower entropy) weighing
   * more. What either thinks impossible stays so.
   *
   * @param power 0 = both weigh the same whatever their entropy
   */
  static double[] together(double[] one, double[] other, double power) {
    double weightOne = Math.pow(entropy(one) + LEAST_ENTROPY, -power);
    double weightOther = Math.pow(entropy(other) + LEAST_ENTROPY, -power);
    double share = weightOne / (weightOne + weightOther);
    double[] mean = new double[one.length];
    double sum = 0;
    for (int s = 0; s < mean.length; s++) {
      boolean possible = one[s] > 0 && other[s] > 0;
      mean[s] = possible ? Math.pow(one[s], share) * Math.pow(other[s], 1 - share) : 0;
      sum += mean[s];
    }
    for (int s = 0; s < mean.length; s++) {
      mean[s] /= sum;
    }
    return mean;
  }

  /** Mostly one opinion, to a small share the other. */
  static double[] blend(double[] one, double[] other, double shareOfOther) {
    double[] mean = new double[one.length];
    for (int s = 0; s < mean.length; s++) {
      mean[s] = (1 - shareOfOther) * one[s] + shareOfOther * other[s];
    }
    return mean;
  }

  private static double entropy(double[] odds) {
    double sum = 0;
    for (double p : odds) {
      sum -= p > 0 ? p * Math.log(p) : 0;
    }
    return sum;
  }
}
