package undersong.estimate.key;

import java.util.EnumMap;
import java.util.Map;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.theory.Mode;
import undersong.time.Span;

/** What the trained ear says of tonic and third, bar by bar, beside what the chords say. */
final class HeardKeys {
  /** Modes in the order of the key head, twelve tonics each. */
  private static final Mode[] MODES = {
    Mode.MAJOR,
    Mode.NATURAL_MINOR,
    Mode.HARMONIC_MINOR,
    Mode.MELODIC_MINOR,
    Mode.DORIAN,
    Mode.PHRYGIAN,
    Mode.LYDIAN,
    Mode.MIXOLYDIAN
  };

  private static final double WEIGHT = 0.5;
  private static final double FLOOR = 0.01;

  private HeardKeys() {}

  /** Adds the ear's log-probabilities to the evidence of each unit. */
  static void add(EarActivations ear, double[] boundaries, float[][] evidence) {
    FrameMatrix head = ear.head(EarHead.KEY);
    for (int unit = 0; unit < evidence.length; unit++) {
      int from = head.clock().frameAt(boundaries[unit]);
      int to =
          Math.min(head.frames(), Math.max(from + 1, head.clock().frameAt(boundaries[unit + 1])));
      double[] sums = new double[TonicEvidence.KEYS];
      for (int frame = from; frame < to; frame++) {
        for (int bin = 0; bin < head.bins(); bin++) {
          boolean minor = MODES[bin / 12].hasMinorThird();
          sums[bin % 12 + (minor ? 12 : 0)] += head.at(frame, bin) / (to - from);
        }
      }
      for (int key = 0; key < sums.length; key++) {
        evidence[unit][key] += (float) (WEIGHT * Math.log(sums[key] + FLOOR));
      }
    }
  }

  /**
   * Log-probability of each mode with this tonic and third over a region, against its rivals.
   *
   * @param minor whether the third is minor
   */
  static Map<Mode, Double> modes(EarActivations ear, Span region, int tonic, boolean minor) {
    FrameMatrix head = ear.head(EarHead.KEY);
    int from = Math.max(0, head.clock().frameAt(region.startSeconds()));
    int to = Math.min(head.frames(), head.clock().frameAt(region.endSeconds()));
    Map<Mode, Double> shares = new EnumMap<>(Mode.class);
    double sum = 0;
    for (int mode = 0; mode < MODES.length; mode++) {
      if (MODES[mode].hasMinorThird() == minor) {
        double share = FLOOR;
        for (int frame = from; frame < to; frame++) {
          share += head.at(frame, 12 * mode + tonic) / (to - from);
        }
        shares.put(MODES[mode], share);
        sum += share;
      }
    }
    double all = sum;
    shares.replaceAll((mode, share) -> Math.log(share / all));
    return shares;
  }
}
