package undersong.estimate.key;

import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.theory.Mode;

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
}
