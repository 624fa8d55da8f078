package undersong.estimate.beat;

/** One way of tapping the whole recording. */
final class PulseHypothesis {
  private final double level;
  private final boolean shifted;
  private final double[] beatFrames;

  /**
   * @param beatFrames fractional frames of the beats, rising; taken over, not copied
   */
  PulseHypothesis(double level, boolean shifted, double[] beatFrames) {
    this.level = level;
    this.shifted = shifted;
    this.beatFrames = beatFrames;
  }

  /** How many times as many beats as the tempo curve has. */
  double level() {
    return level;
  }

  /** Whether it taps half way between the beats that the chain found. */
  boolean shifted() {
    return shifted;
  }

  /** Fractional frames of the beats; not to be written to. */
  double[] beatFrames() {
    return beatFrames;
  }

  /** The same pulse, tapped half way between its beats. */
  PulseHypothesis offbeat() {
    double[] between = new double[beatFrames.length];
    for (int i = 0; i + 1 < between.length; i++) {
      between[i] = (beatFrames[i] + beatFrames[i + 1]) / 2;
    }
    int last = between.length - 1;
    between[last] = beatFrames[last] + (beatFrames[last] - beatFrames[last - 1]) / 2;
    return new PulseHypothesis(level, !shifted, between);
  }

  double medianPeriodFrames() {
    double[] periods = new double[beatFrames.length - 1];
    for (int i = 0; i < periods.length; i++) {
      periods[i] = beatFrames[i + 1] - beatFrames[i];
    }
    java.util.Arrays.sort(periods);
    return periods[periods.length / 2];
  }
}
