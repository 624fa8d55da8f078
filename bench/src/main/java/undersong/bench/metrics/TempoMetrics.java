package undersong.bench.metrics;

/** Agreement of one tempo with the reference, within a relative tolerance. */
public final class TempoMetrics {
  private TempoMetrics() {}

  /** Within 4 %, the bound included. */
  public static boolean accuracy1(double referenceBpm, double estimatedBpm) {
    return close(referenceBpm, estimatedBpm);
  }

  /** Within 4 % of the tempo, its half, double, third or triple. */
  public static boolean accuracy2(double referenceBpm, double estimatedBpm) {
    for (double factor : new double[] {1, 2, 0.5, 3, 1.0 / 3}) {
      if (close(factor * referenceBpm, estimatedBpm)) {
        return true;
      }
    }
    return false;
  }

  private static boolean close(double referenceBpm, double estimatedBpm) {
    return Math.abs(estimatedBpm - referenceBpm) <= 0.04 * referenceBpm;
  }

  /**
   * P-score of two reference tempi; a hit lies within 8 %.
   *
   * @param firstWeight salience of the first reference tempo, 0 to 1
   */
  public static double pScore(
      double firstBpm, double secondBpm, double firstWeight, double[] estimatedBpm) {
    return firstWeight * hit(firstBpm, estimatedBpm)
        + (1 - firstWeight) * hit(secondBpm, estimatedBpm);
  }

  private static double hit(double referenceBpm, double[] estimatedBpm) {
    for (double bpm : estimatedBpm) {
      if (Math.abs(bpm - referenceBpm) / referenceBpm <= 0.08) {
        return 1;
      }
    }
    return 0;
  }
}
