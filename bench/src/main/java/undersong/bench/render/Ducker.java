package undersong.bench.render;

import java.util.List;

/**
 * Lets held sounds give way to the kick: down at once, back along a straight line in decibels.
 *
 * @param kickSeconds rising
 */
record Ducker(List<Double> kickSeconds, double depthDb, double recoverySeconds) {
  private static final int KICK = 36;
  private static final double ATTACK_SECONDS = 0.005;

  static Ducker of(Arrangement arrangement) {
    Staging.Ducking set = arrangement.production().ducking();
    List<Double> kicks =
        arrangement.parts().stream()
            .filter(p -> p.role() == Part.Role.DRUMS)
            .flatMap(p -> p.notes().stream())
            .filter(n -> n.pitch() == KICK)
            .map(n -> arrangement.tempo().secondsAt(n.startBeat()))
            .sorted()
            .toList();
    return new Ducker(kicks, set.depthDb(), set.recoverySeconds());
  }

  /**
   * @param signal read and written
   */
  void duck(float[] signal) {
    int next = 0;
    double kick = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < signal.length; i++) {
      double seconds = (double) i / Wave.RATE_HZ;
      while (next < kickSeconds.size() && kickSeconds.get(next) <= seconds) {
        kick = kickSeconds.get(next++);
      }
      double since = seconds - kick;
      double down = Math.min(1, since / ATTACK_SECONDS) * Math.max(0, 1 - since / recoverySeconds);
      if (down > 0) {
        signal[i] *= (float) Math.pow(10, -depthDb * down / 20);
      }
    }
  }
}
