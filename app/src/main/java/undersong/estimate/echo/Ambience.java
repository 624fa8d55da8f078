package undersong.estimate.echo;

import java.util.Arrays;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.time.Span;

/**
 * The part of a stereo recording that stands nowhere: what a room adds, since no two of its
 * reflections come from one side. Of the powers and the cross power of both channels, cell by cell,
 * the smaller principal component is half of it.
 *
 * <p>Source: M. M. Goodwin and J.-M. Jot, "Primary-ambient signal decomposition and vector-based
 * localization for spatial audio coding and enhancement", ICASSP 2007, from memory.
 *
 * <p><b>Cost:</b> O(frames * bins), once for a recording.
 */
final class Ambience {
  /** Half a second: so long a cell's component must not move. */
  private static final int MOMENT_FRAMES = 12;

  private static final int MOMENT_HOP = MOMENT_FRAMES / 2;

  /** Below this bin a cell is one line of the transform, whose channels always agree. */
  private static final int LOWEST_BIN = 4;

  /** Loud cells say more, but not as much more as they are louder. */
  private static final double LOUDNESS_POWER = 0.3;

  private static final double LEAST_SHARE = 1e-4;
  private static final double MOST_SHARE = 0.999;

  private final double[] sums;
  private final double[] weights;

  Ambience(StereoPowers powers) {
    int moments = Math.max(0, (powers.frames() - MOMENT_FRAMES) / MOMENT_HOP + 1);
    sums = new double[moments];
    weights = new double[moments];
    for (int moment = 0; moment < moments; moment++) {
      weigh(powers, moment);
    }
  }

  private void weigh(StereoPowers powers, int moment) {
    double[] cell = new double[3];
    for (int bin = LOWEST_BIN; bin < StereoImage.BINS; bin++) {
      Arrays.fill(cell, 0);
      int from = moment * MOMENT_HOP;
      powers.addTo(cell, from, from + MOMENT_FRAMES, bin);
      double whole = cell[0] + cell[1];
      if (whole > 0) {
        double share =
            Math.max(LEAST_SHARE, Math.min(MOST_SHARE, 2 * smallerComponent(cell) / whole));
        double weight = Math.pow(whole, LOUDNESS_POWER);
        weights[moment] += weight;
        sums[moment] += weight * 10 * Math.log10(share / (1 - share));
      }
    }
  }

  private static double smallerComponent(double[] cell) {
    return (cell[0] + cell[1]) / 2 - Math.hypot((cell[0] - cell[1]) / 2, cell[2]);
  }

  /**
   * Mean and standard deviation of its level against the rest, moment by moment; empty in silence.
   */
  double[] levelAndWander(Span span) {
    double weight = 0;
    double sum = 0;
    double squares = 0;
    for (int m = moment(span.startSeconds()); m < moment(span.endSeconds()); m++) {
      if (weights[m] > 0) {
        weight += weights[m];
        sum += sums[m];
        squares += sums[m] * sums[m] / weights[m];
      }
    }
    double mean = sum / weight;
    return weight == 0
        ? new double[0]
        : new double[] {mean, Math.sqrt(Math.max(0, squares / weight - mean * mean))};
  }

  private int moment(double seconds) {
    double moment = seconds * StereoImage.CLOCK.framesPerSecond() / MOMENT_HOP;
    return (int) Math.max(0, Math.min(weights.length, Math.rint(moment)));
  }
}
