package undersong.kernel;

import java.util.Arrays;
import java.util.List;

/**
 * A positive signal as a sum of few others, each with a weight of at least zero, where errors grow
 * with what is expected, as those of powers do. The weights have the greatest gamma likelihood,
 * found by weighting least squares anew by what they give.
 *
 * <p>Source: P. McCullagh and J. A. Nelder, Generalized Linear Models, 2nd ed. 1989, chapters 2 and
 * 8, from memory.
 *
 * <p><b>Cost:</b> O(rounds * (samples * n^2 + 2^n * n^3)) for n signals.
 */
public final class GrowingErrorFit {
  private static final int ROUNDS = 5;
  private static final double LEAST = 1e-8;

  private GrowingErrorFit() {}

  /**
   * @param weights of the signals
   * @param deviance half the gamma deviance, summed over samples: 0 where the sum is the signal
   */
  public record Fit(List<Double> weights, double deviance) {
    public Fit {
      weights = List.copyOf(weights);
    }
  }

  /**
   * @param parts read: n signals, not below 0
   * @param whole read: as long, above 0
   * @param first read: as long, above 0: what is expected before anything is known
   */
  public static Fit of(double[][] parts, double[] whole, double[] first) {
    double[] expected = first.clone();
    double[] weights = new double[parts.length];
    for (int round = 0; round < ROUNDS; round++) {
      weights = weighted(parts, whole, expected);
      for (int t = 0; t < whole.length; t++) {
        double sum = 0;
        for (int p = 0; p < parts.length; p++) {
          sum += weights[p] * parts[p][t];
        }
        expected[t] = Math.max(LEAST, sum);
      }
    }
    double deviance = 0;
    for (int t = 0; t < whole.length; t++) {
      double ratio = whole[t] / expected[t];
      deviance += ratio - Math.log(ratio) - 1;
    }
    return new Fit(Arrays.stream(weights).boxed().toList(), deviance);
  }

  private static double[] weighted(double[][] parts, double[] whole, double[] expected) {
    int n = parts.length;
    double[][] gram = new double[n][n];
    double[] shared = new double[n];
    for (int t = 0; t < whole.length; t++) {
      double weight = 1 / (expected[t] * expected[t]);
      for (int p = 0; p < n; p++) {
        double value = weight * parts[p][t];
        shared[p] += value * whole[t];
        for (int q = 0; q <= p; q++) {
          gram[p][q] += value * parts[q][t];
        }
      }
    }
    for (int p = 0; p < n; p++) {
      for (int q = 0; q < p; q++) {
        gram[q][p] = gram[p][q];
      }
    }
    return notNegative(gram, shared);
  }

  /** Of all choices of signals whose weights come out above zero the one that explains most. */
  private static double[] notNegative(double[][] gram, double[] shared) {
    double[] best = new double[shared.length];
    double most = 0;
    for (int choice = 1; choice < 1 << shared.length; choice++) {
      double[] weights = solved(gram, shared, choice);
      double explained = 0;
      for (int p = 0; p < shared.length; p++) {
        explained += weights[p] * shared[p];
      }
      if (explained > most && Arrays.stream(weights).allMatch(w -> w >= 0)) {
        most = explained;
        best = weights;
      }
    }
    return best;
  }

  /** By elimination; a signal that says nothing of its own gets no weight. */
  private static double[] solved(double[][] gram, double[] shared, int choice) {
    int n = shared.length;
    double[][] rows = new double[n][];
    for (int p = 0; p < n; p++) {
      rows[p] = Arrays.copyOf(gram[p], n + 1);
      rows[p][n] = shared[p];
    }
    double[] weights = new double[n];
    boolean[] used = new boolean[n];
    for (int p = 0; p < n; p++) {
      used[p] = (choice >> p & 1) == 1 && rows[p][p] > 1e-12 * gram[p][p];
      for (int q = 0; used[p] && q < n; q++) {
        double factor = rows[q][p] / rows[p][p];
        for (int c = 0; q != p && c <= n; c++) {
          rows[q][c] -= factor * rows[p][c];
        }
      }
    }
    for (int p = 0; p < n; p++) {
      weights[p] = used[p] ? rows[p][n] / rows[p][p] : 0;
    }
    return weights;
  }
}
