package undersong.estimate.meter;

import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.time.BeatGrid;

/** What the trained ear says of bars: where they begin and how many beats they have. */
final class HeardBars {
  private static final int NEAR_FRAMES = 2;
  private static final double FLOOR = 0.02;

  /** Beats of the classes of the meter head, and which of them divide beats in three. */
  private static final int[] BEATS = {2, 3, 4, 5, 7, 2, 4};

  private static final int FIRST_COMPOUND = 5;

  private static final double DOWNBEAT_WEIGHT = 1.5;
  private static final double LENGTH_WEIGHT = 0.25;

  private final FrameMatrix beatHead;
  private final FrameMatrix meterHead;

  HeardBars(EarActivations ear) {
    beatHead = ear.head(EarHead.BEAT);
    meterHead = ear.head(EarHead.METER);
  }

  /** Share of the song in which the ear hears beats divided in three. */
  double compoundShare() {
    double sum = 0;
    for (int frame = 0; frame < meterHead.frames(); frame++) {
      for (int bin = FIRST_COMPOUND; bin < BEATS.length; bin++) {
        sum += meterHead.at(frame, bin) / meterHead.frames();
      }
    }
    return sum;
  }

  /** Weighed log-odds that each beat begins a bar. */
  double[] logOdds(BeatGrid grid) {
    double[] odds = new double[grid.size()];
    for (int beat = 0; beat < odds.length; beat++) {
      int at = beatHead.clock().frameAt(grid.secondsAt(beat));
      double down = 0;
      double any = FLOOR;
      int end = Math.min(beatHead.frames() - 1, at + NEAR_FRAMES);
      for (int frame = Math.max(0, at - NEAR_FRAMES); frame <= end; frame++) {
        down = Math.max(down, beatHead.at(frame, 1));
        any = Math.max(any, beatHead.at(frame, 0));
      }
      double p = Math.min(1, down / any);
      odds[beat] = DOWNBEAT_WEIGHT * Math.log((p + FLOOR) / (1 - p + FLOOR));
    }
    return odds;
  }

  /** Weighed log-probability of each bar length around each beat. */
  double[][] logLengths(BeatGrid grid, int[] lengths, boolean compound) {
    double[][] out = new double[grid.size()][lengths.length];
    for (int beat = 0; beat < out.length; beat++) {
      int frame = meterHead.clock().frameAt(grid.secondsAt(beat));
      frame = Math.max(0, Math.min(meterHead.frames() - 1, frame));
      for (int i = 0; i < lengths.length; i++) {
        double p = FLOOR;
        for (int bin = 0; bin < BEATS.length; bin++) {
          boolean counts = BEATS[bin] == lengths[i] && compound == bin >= FIRST_COMPOUND;
          p += counts ? meterHead.at(frame, bin) : 0;
        }
        // Two beats in a bar are written as half of four where beats divide in two.
        p += !compound && lengths[i] == 4 ? meterHead.at(frame, 0) : 0;
        out[beat][i] = LENGTH_WEIGHT * Math.log(p);
      }
    }
    return out;
  }
}
