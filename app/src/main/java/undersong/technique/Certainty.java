package undersong.technique;

import java.util.Collection;

/** How sure a finding is, given how sure the things are on which it rests. */
public final class Certainty {
  private Certainty() {}

  static double check(double probability) {
    if (!(probability >= 0 && probability <= 1)) {
      throw new IllegalArgumentException(
          "Probability %s must lie within 0 to 1.".formatted(probability));
    }
    return probability;
  }

  /** That all hold, each being doubtful by itself; 1 where there are none. */
  public static double all(double... probabilities) {
    double product = 1;
    for (double probability : probabilities) {
      product *= check(probability);
    }
    return product;
  }

  /** That all hold, each being doubtful by itself. */
  public static double all(Collection<Double> probabilities) {
    return all(probabilities.stream().mapToDouble(Double::doubleValue).toArray());
  }

  /**
   * That at least so many hold, each being doubtful by itself: for what rests on most of its notes,
   * not on every one (the Poisson binomial distribution, by its recurrence).
   *
   * <p><b>Cost:</b> N * N.
   */
  public static double atLeast(int wanted, Collection<Double> probabilities) {
    double[] exactly = new double[probabilities.size() + 1];
    exactly[0] = 1;
    int seen = 0;
    for (double probability : probabilities) {
      seen++;
      for (int k = seen; k >= 0; k--) {
        double before = k > 0 ? exactly[k - 1] * check(probability) : 0;
        exactly[k] = exactly[k] * (1 - probability) + before;
      }
    }
    double sum = 0;
    for (int k = Math.max(0, wanted); k < exactly.length; k++) {
      sum += exactly[k];
    }
    return Math.min(1, sum);
  }

  /**
   * A value against its limit as a probability: 0.5 on the limit, 0.88 one {@code width} beyond it,
   * so that a narrow miss and a narrow hit are near each other.
   */
  public static double beyond(double value, double limit, double width) {
    return 1 / (1 + Math.exp(-2 * (value - limit) / width));
  }
}
