package undersong.estimate.form;

import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;

/** Where the trained ear hears a new section begin, bar by bar. */
final class HeardBoundaries {
  private static final double NEAR_SECONDS = 0.7;

  private HeardBoundaries() {}

  /** Probability that a section begins with each bar: the highest near its start. */
  static double[] of(EarActivations ear, BarSpans bars) {
    FrameMatrix head = ear.head(EarHead.BOUNDARY);
    double[] heard = new double[bars.size()];
    for (int bar = 0; bar < heard.length; bar++) {
      double at = bars.spans().get(bar).startSeconds();
      int from = Math.max(0, head.clock().frameAt(at - NEAR_SECONDS));
      int to = Math.min(head.frames() - 1, head.clock().frameAt(at + NEAR_SECONDS));
      for (int frame = from; frame <= to; frame++) {
        heard[bar] = Math.max(heard[bar], head.at(frame, 0));
      }
    }
    return heard;
  }
}
