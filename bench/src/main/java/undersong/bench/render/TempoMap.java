package undersong.bench.render;

import java.util.Random;

/** Where beats fall in seconds, and how the beat is divided (swing). */
final class TempoMap {
  private final double[] beatSeconds;
  private final double swingRatio;

  private TempoMap(double[] beatSeconds, double swingRatio) {
    this.beatSeconds = beatSeconds;
    this.swingRatio = swingRatio;
  }

  /**
   * @param drift largest deviation from the tempo, as a share; 0 = like a machine
   * @param swingRatio first half of the beat over the second; 1 = even
   */
  static TempoMap of(
      int beats, double bpm, double leadInSeconds, double drift, double swingRatio, Random random) {
    double[] seconds = new double[beats + 1];
    seconds[0] = leadInSeconds;
    double deviation = 0;
    double velocity = 0;
    for (int b = 1; b <= beats; b++) {
      velocity = 0.9 * velocity + 0.1 * drift * random.nextGaussian();
      deviation = Math.max(-drift, Math.min(drift, 0.99 * deviation + velocity));
      double jitter = drift == 0 ? 0 : 0.004 * random.nextGaussian();
      seconds[b] = seconds[b - 1] + 60 / bpm * (1 + deviation + jitter);
    }
    return new TempoMap(seconds, swingRatio);
  }

  int beats() {
    return beatSeconds.length - 1;
  }

  /** Seconds of an unswung beat position. */
  double secondsAt(double beat) {
    int i = Math.max(0, Math.min(beatSeconds.length - 2, (int) Math.floor(beat)));
    return beatSeconds[i] + swung(beat - i) * (beatSeconds[i + 1] - beatSeconds[i]);
  }

  private double swung(double share) {
    double first = swingRatio / (1 + swingRatio);
    if (share <= 0 || share >= 1) {
      return share;
    }
    return share < 0.5 ? 2 * share * first : first + (2 * share - 1) * (1 - first);
  }
}
