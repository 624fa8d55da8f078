package undersong.estimate.texture;

/**
 * When the silence of a layer is told as a rest; fitted on tuning songs by {@code
 * undersong.bench.decode.RestFit}.
 */
public record RestSettings(Limit drums, Limit bass, Limit lead) {
  public static final RestSettings DEFAULTS =
      new RestSettings(new Limit(0.68, 0.5), new Limit(0.2, 0.5), new Limit(0.2, 2.2));

  /**
   * @param share of the usual activity at which playing and resting are equally likely
   * @param leastEvidence bars of a rest times the logarithm of {@code share} over the share that is
   *     heard, from which it is a rest
   */
  public record Limit(double share, double leastEvidence) {}
}
