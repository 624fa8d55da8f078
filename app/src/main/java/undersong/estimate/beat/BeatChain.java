package undersong.estimate.beat;

/**
 * The chain of beats that lies on the strongest gains while its steps keep close to the tempo
 * curve.
 *
 * <p>Source: D. P. W. Ellis, "Beat Tracking by Dynamic Programming", J. New Music Research 36(1),
 * 2007. Departs from the paper: the period moves with the tempo curve, and the chain runs from the
 * first to the last frame it is given, through breaks. Cost O(frames * period).
 */
final class BeatChain {
  /** Price of a step an octave off the curve's period, a full-strength beat being worth 1. */
  private static final double TIGHTNESS = 60;

  private BeatChain() {}

  /**
   * @param gain read: worth of a beat on each frame
   * @param from first frame a beat may fall on
   * @param to frame after the last
   * @return frames of the beats, rising
   */
  static int[] track(double[] gain, TempoCurve curve, int from, int to) {
    int n = to - from;
    double[] best = new double[n];
    int[] before = new int[n];
    double[] log = new double[n + 1];
    for (int i = 1; i <= n; i++) {
      log[i] = Math.log(i);
    }
    double tightness = TIGHTNESS / (Math.log(2) * Math.log(2));
    for (int t = 0; t < n; t++) {
      double period = curve.periodAt(from + t);
      double logPeriod = Math.log(period);
      int shortest = Math.max(1, (int) (0.6 * period));
      int longest = (int) Math.ceil(1.6 * period);
      double top = t < period ? 0 : Double.NEGATIVE_INFINITY;
      int chosen = -1;
      for (int step = shortest; step <= longest && step <= t; step++) {
        double off = log[step] - logPeriod;
        double value = best[t - step] - tightness * off * off;
        if (value > top) {
          top = value;
          chosen = t - step;
        }
      }
      best[t] = top + gain[from + t];
      before[t] = chosen;
    }
    int last = n - 1;
    int earliest = Math.max(0, n - (int) Math.ceil(curve.periodAt(to - 1)));
    for (int t = n - 1; t >= earliest; t--) {
      last = best[t] > best[last] ? t : last;
    }
    int count = 0;
    for (int t = last; t >= 0; t = before[t]) {
      count++;
    }
    int[] beats = new int[count];
    for (int t = last; t >= 0; t = before[t]) {
      beats[--count] = from + t;
    }
    return beats;
  }
}
