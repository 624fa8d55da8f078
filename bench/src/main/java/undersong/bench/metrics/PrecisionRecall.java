package undersong.bench.metrics;

/**
 * How much of the estimate is right, and how much of the reference was found.
 *
 * @param precision matches over estimates; 0 where nothing was estimated
 * @param recall matches over references; 0 where there is nothing to find
 */
public record PrecisionRecall(double precision, double recall) {
  static PrecisionRecall of(double matches, int references, int estimates) {
    return references == 0 || estimates == 0
        ? new PrecisionRecall(0, 0)
        : new PrecisionRecall(matches / estimates, matches / references);
  }

  /** Harmonic mean; 0 where both are 0. */
  public double f() {
    return f(1);
  }

  /**
   * @param beta weight of recall against precision
   */
  public double f(double beta) {
    double square = beta * beta;
    return precision == 0 && recall == 0
        ? 0
        : (1 + square) * precision * recall / (square * precision + recall);
  }
}
