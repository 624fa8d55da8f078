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

  /**
   * What the ear's probability of each mode is multiplied by: it was trained on rare modes as often
   * as on common ones. Share of the mode among 358 charts that are marked for learning (Billboard
   * and RS200, told by their chords) over its share in training (training/ear/song.py), and the
   * square root of that, so that a rare mode is still heard where it sounds.
   */
  private static final double[] PRIOR = {1.46, 0.8, 0.55, 0.45, 0.44, 0.3, 0.45, 1.19};

  private static final double FLOOR = 0.01;

  /**
   * The same where keys are compared along the song: that a key is not heard at all says little.
   */
  private static final double CHANGE_FLOOR = 0.25;

  private HeardKeys() {}

  /**
   * Adds what the ear says of each unit. What it says of the song as a whole weighs little, since
   * it has learned from generated music, whose loops often hide their tonic; where it hears a key
   * more or less than in the rest of the song, the key has likely changed, and that weighs more.
   */
  static void add(
      EarActivations ear, double[] boundaries, KeySettings settings, float[][] evidence) {
    double[][] heard = shares(ear.head(EarHead.KEY), boundaries);
    double tempered = 1 / Math.sqrt(heard.length);
    for (int key = 0; key < TonicEvidence.KEYS; key++) {
      double mean = 0;
      for (double[] unit : heard) {
        mean += Math.log(unit[key] + CHANGE_FLOOR) / heard.length;
      }
      for (int unit = 0; unit < heard.length; unit++) {
        double more = Math.log(heard[unit][key] + CHANGE_FLOOR) - mean;
        double said =
            settings.earWeight() * Math.log(heard[unit][key] + FLOOR)
                + settings.earChangeWeight() * more;
        evidence[unit][key] += (float) (tempered * said);
      }
    }
  }

  /** {@code [unit][key]}: the share of what is heard that the key has. */
  private static double[][] shares(FrameMatrix head, double[] boundaries) {
    double[][] shares = new double[boundaries.length - 1][TonicEvidence.KEYS];
    for (int unit = 0; unit < shares.length; unit++) {
      int from = head.clock().frameAt(boundaries[unit]);
      int to =
          Math.min(head.frames(), Math.max(from + 1, head.clock().frameAt(boundaries[unit + 1])));
      double all = 1e-9;
      for (int frame = from; frame < to; frame++) {
        for (int bin = 0; bin < head.bins(); bin++) {
          double share = PRIOR[bin / 12] * head.at(frame, bin);
          shares[unit][bin % 12 + (MODES[bin / 12].hasMinorThird() ? 12 : 0)] += share;
          all += share;
        }
      }
      for (int key = 0; key < shares[unit].length; key++) {
        shares[unit][key] /= all;
      }
    }
    return shares;
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
          share += PRIOR[mode] * head.at(frame, 12 * mode + tonic) / (to - from);
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
