package undersong.bench.metrics;

import java.util.Arrays;

/** Plain statistics that several metrics and the page need. */
public final class Statistics {
  private Statistics() {}

  public static double mean(double[] values) {
    return Arrays.stream(values).average().orElse(Double.NaN);
  }

  public static double median(double[] values) {
    return quantile(values, 0.5);
  }

  /**
   * Quantile with linear interpolation; NaN of nothing.
   *
   * @param values read, in any order
   * @param share 0 to 1
   */
  public static double quantile(double[] values, double share) {
    if (values.length == 0) {
      return Double.NaN;
    }
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double place = share * (sorted.length - 1);
    int low = (int) Math.floor(place);
    int high = Math.min(low + 1, sorted.length - 1);
    return sorted[low] + (place - low) * (sorted[high] - sorted[low]);
  }

  /**
   * @param shares not negative, summing to 1
   */
  static double entropyBits(double[] shares) {
    double sum = 0;
    for (double share : shares) {
      if (share > 0) {
        sum -= share * Math.log(share) / Math.log(2);
      }
    }
    return sum;
  }
}
