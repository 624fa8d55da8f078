package undersong.kernel;

/**
 * Makes stated probabilities honest: log-odds times a slope plus a bias, both fitted on songs whose
 * truth is known ({@code training/calibrate.py}). The order of what is stated stays the same.
 *
 * <p>Source: J. Platt, "Probabilistic outputs for support vector machines", 1999.
 *
 * @param slope above 0; below 1 where the statements were too sure
 * @param bias above 0 where they were too modest
 */
public record LogisticScale(double slope, double bias) {
  /** Log-odds are counted no farther out than those of one in a thousand. */
  private static final double FARTHEST = Math.log(999);

  public LogisticScale {
    if (!(slope > 0)) {
      throw new IllegalArgumentException(
          "Slope %s must be above 0, or surer statements would become less sure.".formatted(slope));
    }
  }

  /**
   * @param stated 0 to 1
   */
  public double of(double stated) {
    double odds = Math.log(stated / (1 - stated));
    double bounded = Math.max(-FARTHEST, Math.min(FARTHEST, odds));
    return 1 / (1 + Math.exp(-(slope * bounded + bias)));
  }
}
