package undersong.trend;

/**
 * By how much one share of songs exceeds another, with a 95 % interval.
 *
 * <p>Source: R. G. Newcombe, "Interval Estimation for the Difference between Independent
 * Proportions", Statistics in Medicine 17, 1998 (method 10: Wilson intervals squared and added).
 *
 * @param value from -1 to 1
 */
public record Difference(double value, double low, double high) {

  /** Of the first less the second; from -1 to 1 where nothing was counted. */
  public static Difference between(Share first, Share second) {
    double value = first.value() - second.value();
    double down = Math.hypot(first.value() - first.low(), second.high() - second.value());
    double up = Math.hypot(first.high() - first.value(), second.value() - second.low());
    return new Difference(value, Math.max(-1, value - down), Math.min(1, value + up));
  }

  /** Whether chance alone would hardly make so large a difference. */
  public boolean isTold() {
    return low > 0 || high < 0;
  }
}
