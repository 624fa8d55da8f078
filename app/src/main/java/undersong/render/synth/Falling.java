package undersong.render.synth;

/** A strength that falls from 1 by the factor e in every time constant. */
final class Falling {
  private final double factor;
  private double value = 1;

  Falling(double timeConstantSeconds) {
    this(timeConstantSeconds, 1);
  }

  /**
   * @param everySamples distance between two calls of {@link #next()}
   */
  Falling(double timeConstantSeconds, int everySamples) {
    factor = StrictMath.exp(-everySamples / (timeConstantSeconds * Instrument.SAMPLE_RATE_HZ));
  }

  /** The value now; the following call gives the next. */
  double next() {
    double now = value;
    value *= factor;
    return now;
  }
}
