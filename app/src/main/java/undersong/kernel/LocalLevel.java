package undersong.kernel;

/** Makes a curve comparable with itself over time: quiet stretches count as much as loud ones. */
public final class LocalLevel {
  private LocalLevel() {}

  /**
   * Divides by {@code fullStrength} times the local root mean square and clips at 1.
   *
   * @param x read and written, not negative
   * @param half values to either side that make the local level
   * @param fullStrength local levels that make a 1
   * @param quietestShare of the whole curve's level, below which no local level falls
   */
  public static void divide(float[] x, int half, double fullStrength, double quietestShare) {
    double[] sums = new double[x.length + 1];
    for (int i = 0; i < x.length; i++) {
      sums[i + 1] = sums[i] + (double) x[i] * x[i];
    }
    double whole = x.length == 0 ? 0 : Math.sqrt(sums[x.length] / x.length);
    if (whole <= 0) {
      return;
    }
    for (int i = 0; i < x.length; i++) {
      int from = Math.max(0, i - half);
      int to = Math.min(x.length, i + half);
      double local = Math.sqrt(Math.max(0, sums[to] - sums[from]) / (to - from));
      double strength = x[i] / (fullStrength * Math.max(local, quietestShare * whole));
      x[i] = (float) Math.min(1, strength);
    }
  }
}
