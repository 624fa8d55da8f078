package undersong.estimate.echo;

import java.util.Arrays;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;

/**
 * How much the partials of one note rise again some time after it began: 1 = as much as at its
 * onset. The median over its partials, so that another note on one of them changes little.
 */
final class NoteRises {
  private static final int PARTIALS = 6;
  private static final double HIGHEST_HZ = 6000;

  /** Frames (40 ms) from before a rise to after it. */
  private static final int BEFORE = 2;

  private static final int AFTER = 1;

  private final StereoPowers powers;

  NoteRises(StereoPowers powers) {
    this.powers = powers;
  }

  /**
   * Rises at 0, 1, 2 ... frames after the onset, against the rise at the onset; all 0 where nothing
   * rises there.
   */
  double[] after(double onsetSeconds, double hertz, int frames) {
    int onset = StereoImage.CLOCK.frameAt(onsetSeconds);
    int partials = (int) Math.max(1, Math.min(PARTIALS, HIGHEST_HZ / hertz));
    double[][] rises = new double[partials][frames];
    int counted = 0;
    double loudest = 0;
    double[] own = new double[partials];
    for (int h = 0; h < partials; h++) {
      own[h] = Math.max(rise(onset, h, hertz), rise(onset + 1, h, hertz));
      loudest = Math.max(loudest, own[h]);
    }
    for (int h = 0; h < partials; h++) {
      if (own[h] > 0.003 * loudest && own[h] > 1e-10) {
        for (int d = 0; d < frames; d++) {
          rises[counted][d] = Math.max(0, rise(onset + d, h, hertz)) / own[h];
        }
        counted++;
      }
    }
    double[] medians = new double[frames];
    double[] column = new double[counted];
    for (int d = 0; d < frames && counted > 0; d++) {
      for (int h = 0; h < counted; h++) {
        column[h] = rises[h][d];
      }
      Arrays.sort(column);
      medians[d] = column[(counted - 1) / 2];
    }
    return medians;
  }

  private double rise(int frame, int partial, double hertz) {
    int bin = StereoImage.binOf((partial + 1) * hertz);
    if (frame - BEFORE < 0 || frame + AFTER >= powers.frames()) {
      return 0;
    }
    return powers.power(frame + AFTER, bin) - powers.power(frame - BEFORE, bin);
  }
}
