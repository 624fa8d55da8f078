package undersong.estimate.melody;

import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.feature.FrameSeries;

/**
 * How likely a pitch that is held is struck or sung anew: by the ear's onset of that note, by a dip
 * of the lead's sounding and of the note's holding (a consonant, a new bow), and by a stroke of the
 * whole recording.
 *
 * <p>A logistic regression, fitted by {@code training/restrikes.py} on the rows of {@code
 * undersong.bench.decode.RestrikeRows}. Cost: constant per question.
 */
public final class Restrikes {
  private static final int LOWEST_MIDI = 21;
  private static final double FLOOR = 1e-3;

  /** In the order of {@link #evidence}. */
  private static final double[] WEIGHTS = {1.09, -0.72, -0.35, -1.03, -0.58, 0.3};

  private static final double BIAS = -3.58;

  private final FrameMatrix onset;
  private final FrameMatrix sustain;
  private final FrameMatrix voicing;
  private final FrameSeries strokes;
  private final double usualStroke;

  /**
   * @param strokes rise of the whole recording's spectrum
   */
  public Restrikes(EarActivations ear, FrameSeries strokes) {
    onset = ear.head(EarHead.NOTE_ONSET);
    sustain = ear.head(EarHead.NOTE_SUSTAIN);
    voicing = ear.head(EarHead.VOICING);
    this.strokes = strokes;
    double sum = 0;
    for (int i = 0; i < strokes.frames(); i++) {
      sum += strokes.at(i);
    }
    usualStroke = Math.max(1e-6, sum / Math.max(1, strokes.frames()));
  }

  /** Probability that a held pitch begins anew at a time. */
  double probability(double seconds, int midiPitch) {
    double[] evidence = evidence(seconds, midiPitch);
    double sum = BIAS;
    for (int i = 0; i < WEIGHTS.length; i++) {
      sum += WEIGHTS[i] * evidence[i];
    }
    return 1 / (1 + Math.exp(-sum));
  }

  /**
   * What is weighed, as log-odds but for the last, a logarithm: onset of the note; the lead's
   * sounding against just before and after, and as such; the same of the note's holding, and its
   * holding afterwards; the stroke against the usual one.
   */
  public double[] evidence(double seconds, int midiPitch) {
    int bin = midiPitch - LOWEST_MIDI;
    double sounds = logOdds(least(voicing, seconds, 0, -2, 0));
    double soundsAround =
        logOdds(Math.min(most(voicing, seconds, 0, -5, -3), most(voicing, seconds, 0, 1, 2)));
    double holds = logOdds(least(sustain, seconds, bin, -2, 0));
    double heldBefore = logOdds(most(sustain, seconds, bin, -5, -3));
    double heldAfter = logOdds(most(sustain, seconds, bin, 1, 3));
    return new double[] {
      logOdds(most(onset, seconds, bin, -1, 1)),
      sounds - soundsAround,
      sounds,
      holds - Math.min(heldBefore, heldAfter),
      heldAfter,
      Math.log(stroke(seconds) / usualStroke + 0.01)
    };
  }

  private double stroke(double seconds) {
    int at = strokes.clock().frameAt(seconds);
    double most = 0;
    for (int i = Math.max(0, at - 1); i <= Math.min(strokes.frames() - 1, at + 1); i++) {
      most = Math.max(most, strokes.at(i));
    }
    return most;
  }

  /** Log-odds of what the ear says, finite for 0 and 1 too. */
  static double logOdds(double probability) {
    return Math.log((probability + FLOOR) / (1 - probability + FLOOR));
  }

  private static double most(FrameMatrix head, double seconds, int bin, int from, int to) {
    double most = 0;
    if (bin >= 0 && bin < head.bins()) {
      int at = head.clock().frameAt(seconds);
      for (int i = Math.max(0, at + from); i <= Math.min(head.frames() - 1, at + to); i++) {
        most = Math.max(most, head.at(i, bin));
      }
    }
    return most;
  }

  private static double least(FrameMatrix head, double seconds, int bin, int from, int to) {
    double least = 1;
    if (bin >= 0 && bin < head.bins()) {
      int at = head.clock().frameAt(seconds);
      for (int i = Math.max(0, at + from); i <= Math.min(head.frames() - 1, at + to); i++) {
        least = Math.min(least, head.at(i, bin));
      }
    }
    return least;
  }
}
