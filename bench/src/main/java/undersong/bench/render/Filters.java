package undersong.bench.render;

/**
 * Second-order filters, in place.
 *
 * <p>Source: R. Bristow-Johnson, "Cookbook formulae for audio EQ biquad filter coefficients", 1994
 * (W3C note 2021).
 */
final class Filters {
  private Filters() {}

  /**
   * @param x read and written
   */
  static void lowPass(float[] x, double hertz) {
    double w = omega(hertz);
    double c = Math.cos(w);
    double alpha = Math.sin(w) / 1.414;
    run(x, (1 - c) / 2, 1 - c, (1 - c) / 2, 1 + alpha, -2 * c, 1 - alpha);
  }

  static void highPass(float[] x, double hertz) {
    double w = omega(hertz);
    double c = Math.cos(w);
    double alpha = Math.sin(w) / 1.414;
    run(x, (1 + c) / 2, -(1 + c), (1 + c) / 2, 1 + alpha, -2 * c, 1 - alpha);
  }

  static void peak(float[] x, double hertz, double q, double gainDb) {
    double w = omega(hertz);
    double a = Math.pow(10, gainDb / 40);
    double alpha = Math.sin(w) / (2 * q);
    double c = Math.cos(w);
    run(x, 1 + alpha * a, -2 * c, 1 - alpha * a, 1 + alpha / a, -2 * c, 1 - alpha / a);
  }

  /** A low-pass whose corner moves from one frequency to another by equal ratios. */
  static void sweepLowPass(float[] x, int from, int to, double fromHz, double toHz) {
    double x1 = 0;
    double x2 = 0;
    double y1 = 0;
    double y2 = 0;
    int end = Math.min(to, x.length);
    for (int block = from; block < end; block += 64) {
      double w = omega(fromHz * Math.pow(toHz / fromHz, (double) (block - from) / (to - from)));
      double c = Math.cos(w);
      double alpha = Math.sin(w) / 1.414;
      for (int i = block; i < Math.min(end, block + 64); i++) {
        double y =
            ((1 - c) / 2 * (x[i] + x2 + 2 * x1) + 2 * c * y1 - (1 - alpha) * y2) / (1 + alpha);
        x2 = x1;
        x1 = x[i];
        y2 = y1;
        y1 = y;
        x[i] = (float) y;
      }
    }
  }

  private static double omega(double hertz) {
    return 2 * Math.PI * hertz / Wave.RATE_HZ;
  }

  private static void run(
      float[] x, double b0, double b1, double b2, double a0, double a1, double a2) {
    double x1 = 0;
    double x2 = 0;
    double y1 = 0;
    double y2 = 0;
    for (int i = 0; i < x.length; i++) {
      double y = (b0 * x[i] + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2) / a0;
      x2 = x1;
      x1 = x[i];
      y2 = y1;
      y1 = y;
      x[i] = (float) y;
    }
  }
}
