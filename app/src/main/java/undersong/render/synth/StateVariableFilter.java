package undersong.render.synth;

/**
 * A two-pole filter that gives a low pass and a band pass at once and may be retuned at any sample.
 *
 * <p>Source: the trapezoidal state-variable form, Zavalishin, "The Art of VA Filter Design", 2012.
 */
final class StateVariableFilter {
  private double g;
  private double k;
  private double first;
  private double second;
  private double low;
  private double band;

  /**
   * @param bandwidthHz width between the half-power points of the band pass
   */
  StateVariableFilter(double hertz, double bandwidthHz) {
    tune(hertz, bandwidthHz);
  }

  void tune(double hertz, double bandwidthHz) {
    double safe = Math.min(hertz, 0.45 * Instrument.SAMPLE_RATE_HZ);
    g = StrictMath.tan(StrictMath.PI * safe / Instrument.SAMPLE_RATE_HZ);
    k = bandwidthHz / hertz;
  }

  void step(double in) {
    band = (first + g * (in - second)) / (1 + g * (g + k));
    low = second + g * band;
    first = 2 * band - first;
    second = 2 * low - second;
  }

  /** Low pass, gain 1 at 0 Hz. */
  double low() {
    return low;
  }

  /** Band pass, gain 1 at its center. */
  double band() {
    return k * band;
  }
}
