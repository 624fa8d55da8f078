package undersong.estimate.beat;

/**
 * Evens out beat times: between where each beat was heard and where its neighbors would put it.
 *
 * <p>Minimizes {@code sum w[i] (x[i] - heard[i])^2 + stiffness * sum (x[i-1] - 2 x[i] + x[i+1])^2}
 * (Whittaker 1923, second differences), a banded system solved in one sweep.
 */
final class BeatSmoothing {
  private BeatSmoothing() {}

  /**
   * @param heard read: where each beat was heard, any unit
   * @param weight read: how much each is to be believed, above 0
   * @return the smoothed times
   */
  static double[] smooth(double[] heard, double[] weight, double stiffness) {
    int n = heard.length;
    if (n < 3) {
      return heard.clone();
    }
    double[] main = weight.clone();
    double[] first = new double[n];
    double[] second = new double[n];
    double[] x = new double[n];
    for (int i = 1; i + 1 < n; i++) {
      main[i - 1] += stiffness;
      main[i] += 4 * stiffness;
      main[i + 1] += stiffness;
      first[i - 1] -= 2 * stiffness;
      first[i] -= 2 * stiffness;
      second[i - 1] += stiffness;
    }
    for (int i = 0; i < n; i++) {
      x[i] = weight[i] * heard[i];
    }
    // LDL^T of a symmetric band of width two, forward and back.
    for (int i = 0; i < n; i++) {
      double a = first[i] / main[i];
      double b = second[i] / main[i];
      if (i + 1 < n) {
        main[i + 1] -= a * first[i];
        first[i + 1] -= a * second[i];
        x[i + 1] -= a * x[i];
      }
      if (i + 2 < n) {
        main[i + 2] -= b * second[i];
        x[i + 2] -= b * x[i];
      }
      first[i] = a;
      second[i] = b;
    }
    for (int i = n - 1; i >= 0; i--) {
      x[i] /= main[i];
      if (i + 1 < n) {
        x[i] -= first[i] * x[i + 1];
      }
      if (i + 2 < n) {
        x[i] -= second[i] * x[i + 2];
      }
    }
    return x;
  }
}
