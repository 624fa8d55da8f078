package undersong.estimate.beat;

/**
 * The chain of beats that lies on the strongest gains while its steps keep close to the tempo
 * curve.
 *
 * <p>Source: D. P. W. Ellis, "Beat Tracking by Dynamic Programming", J. New Music Research 36(1),
 * 2007. Departs from the paper: the period moves with the tempo curve, the price is on the relative
 * deviation, and the chain runs from the first to the last frame it is given, through breaks. Cost
 * O(frames * period).
 */
final class BeatChain {
  /** Price of a step as long again as the curve's period, a full-strength beat being worth 1. */
  private static final double TIGHTNESS = 300;

  /** A step may miss the period by this for nothing: frames are whole. */
  private static final double FREE_FRAMES = 0.5;

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
    for (int t = 0; t < n; t++) {
      double period = curve.periodAt(from + t);
      int shortest = Math.max(1, (int) (0.75 * period));
      int longest = (int) Math.ceil(1.35 * period);
      double top = t < period ? 0 : Double.NEGATIVE_INFINITY;
      int chosen = -1;
      for (int step = shortest; step <= longest && step <= t; step++) {
        double off = Math.max(0, Math.abs(step - period) - FREE_FRAMES) / period;
        double value = best[t - step] - TIGHTNESS * off * off;
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
