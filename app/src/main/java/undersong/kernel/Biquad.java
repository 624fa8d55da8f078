package undersong.kernel;

/**
 * Coefficients of a second-order filter section, {@code a0 = 1}:
 *
 * <pre>y[n] = b0 x[n] + b1 x[n-1] + b2 x[n-2] - a1 y[n-1] - a2 y[n-2]</pre>
 */
public record Biquad(double b0, double b1, double b2, double a1, double a2) {

  /**
   * The same analog filter at another sample rate: the bilinear transform is undone at {@code
   * fromHz} and done again at {@code toHz}, both times pinned at the filter's own corner frequency,
   * so that the corner stays where it was.
   */
  public Biquad redesigned(double fromHz, double toHz) {
    // z^-1 = (1 - s) / (1 + s) gives polynomials in s; the denominator's ratio is the corner.
    double n2 = b0 - b1 + b2;
    double n1 = 2 * (b0 - b2);
    double n0 = b0 + b1 + b2;
    double d2 = 1 - a1 + a2;
    double d1 = 2 * (1 - a2);
    double d0 = 1 + a1 + a2;
    double corner = Math.sqrt(d0 / d2);
    double cornerHz = Math.atan(corner) * fromHz / Math.PI;
    // s at the new rate is stretched so that the corner falls on cornerHz again.
    double stretch = corner / Math.tan(Math.PI * cornerHz / toHz);
    n2 *= stretch * stretch;
    d2 *= stretch * stretch;
    n1 *= stretch;
    d1 *= stretch;
    double a0 = d2 + d1 + d0;
    return new Biquad(
        (n2 + n1 + n0) / a0,
        2 * (n0 - n2) / a0,
        (n2 - n1 + n0) / a0,
        2 * (d0 - d2) / a0,
        (d2 - d1 + d0) / a0);
  }

  /** Gain at a frequency, in decibels. */
  public double gainDecibels(double hz, double sampleRateHz) {
    double w = 2 * Math.PI * hz / sampleRateHz;
    return 10 * Math.log10(squared(b0, b1, b2, w) / squared(1, a1, a2, w));
  }

  private static double squared(double c0, double c1, double c2, double w) {
    double re = c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w);
    double im = c1 * Math.sin(w) + c2 * Math.sin(2 * w);
    return re * re + im * im;
  }
}
