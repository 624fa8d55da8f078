package undersong.estimate.melody;

import java.util.Arrays;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;

/**
 * Where the followed lead sounds and where it rests. The ear's chance that a lead sounds is weighed
 * against how sure its pitch is, whether a note of that pitch is held, how far the pitch lies from
 * where the tune moves just there, how clearly the song's lead speaks at its best, whether it is
 * sung as the rest of the song's lead is, and whether a second voice sounds; then the likelier of
 * the two is followed frame by frame, with a cost for every change.
 *
 * <p>A logistic regression, fitted by {@code training/voicing.py} on the rows of {@code
 * undersong.bench.decode.VoicingRows}. Cost: O(frames).
 */
public final class LeadSounding {
  private static final int LOWEST_MIDI = 21;

  /** The tune's usual place is taken over so much on either side. */
  private static final double AROUND_SECONDS = 2;

  /** The song's lead at its best: it speaks no clearer than this in so large a share of frames. */
  private static final double BEST_SHARE = 0.9;

  /** In the order of {@link #evidence}. */
  private static final double[] WEIGHTS = {0.92, 1.38, 0.26, -0.37, -0.36, -0.11, 0.11};

  private static final double BIAS = 3.89;

  private final EarActivations ear;
  private final LeadPath path;
  private final double tuningSemitones;
  private final double[] usualPitches;
  private final double best;
  private final double sung;

  public LeadSounding(EarActivations ear, LeadPath path, double tuningSemitones) {
    this.ear = ear;
    this.path = path;
    this.tuningSemitones = tuningSemitones;
    FrameMatrix voicing = ear.head(EarHead.VOICING);
    double[] clear = new double[path.frames()];
    double[] weights = new double[path.frames()];
    double[] pitches = new double[path.frames()];
    double total = 1e-9;
    double sungTotal = 0;
    for (int frame = 0; frame < path.frames(); frame++) {
      clear[frame] = Restrikes.logOdds(voicing.at(frame, 0));
      weights[frame] = voicing.at(frame, 0) * path.massAt(frame) + 1e-6;
      pitches[frame] = path.pitchAt(frame);
      total += weights[frame];
      sungTotal += weights[frame] * voicing.at(frame, 1);
    }
    sung = sungTotal / total;
    Arrays.sort(clear);
    best = clear.length == 0 ? 0 : clear[(int) (BEST_SHARE * (clear.length - 1))];
    int around = (int) Math.round(AROUND_SECONDS * voicing.clock().framesPerSecond());
    usualPitches = movingMean(pitches, weights, around);
  }

  private static double[] movingMean(double[] values, double[] weights, int around) {
    double[] sums = new double[values.length + 1];
    double[] totals = new double[values.length + 1];
    for (int i = 0; i < values.length; i++) {
      sums[i + 1] = sums[i] + weights[i] * values[i];
      totals[i + 1] = totals[i] + weights[i];
    }
    double[] means = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      int from = Math.max(0, i - around);
      int to = Math.min(values.length, i + around + 1);
      means[i] = (sums[to] - sums[from]) / (totals[to] - totals[from]);
    }
    return means;
  }

  /**
   * What is weighed: the lead's sounding, as log-odds; logarithm of the probability of its pitch;
   * the holding of that note, as log-odds; its distance from the tune's usual pitch around, in
   * semitones; the song's clearest sounding; log-odds that it is sung, reversed where the song's
   * lead is played; log-odds of a second voice.
   */
  public double[] evidence(int frame) {
    FrameMatrix voicing = ear.head(EarHead.VOICING);
    FrameMatrix sustain = ear.head(EarHead.NOTE_SUSTAIN);
    double pitch = path.pitchAt(frame);
    int note = (int) Math.round(pitch - tuningSemitones) - LOWEST_MIDI;
    boolean known = note >= 0 && note < sustain.bins() && frame < sustain.frames();
    return new double[] {
      Restrikes.logOdds(voicing.at(frame, 0)),
      Math.log(path.massAt(frame) + 0.01),
      Restrikes.logOdds(known ? sustain.at(frame, note) : 0),
      Math.abs(pitch - usualPitches[frame]),
      best,
      Restrikes.logOdds(voicing.at(frame, 1)) * (2 * sung - 1),
      Restrikes.logOdds(voicing.at(frame, 2))
    };
  }

  private double weighed(int frame) {
    double[] evidence = evidence(frame);
    double sum = BIAS;
    for (int i = 0; i < WEIGHTS.length; i++) {
      sum += WEIGHTS[i] * evidence[i];
    }
    return sum;
  }

  /**
   * The likeliest course, by the Viterbi algorithm.
   *
   * @param changeCost of beginning or ending to sound, in log probability
   */
  boolean[] course(double changeCost) {
    int frames = path.frames();
    boolean[] soundsOn = new boolean[frames];
    boolean[] restsOn = new boolean[frames];
    double sounds = 0;
    double rests = 0;
    for (int frame = 0; frame < frames; frame++) {
      soundsOn[frame] = sounds >= rests - changeCost;
      restsOn[frame] = rests >= sounds - changeCost;
      double before = sounds;
      sounds = Math.max(sounds, rests - changeCost) + weighed(frame);
      rests = Math.max(rests, before - changeCost);
    }
    boolean[] course = new boolean[frames];
    boolean state = sounds > rests;
    for (int frame = frames - 1; frame >= 0; frame--) {
      course[frame] = state;
      state = state ? soundsOn[frame] : !restsOn[frame];
    }
    return course;
  }
}
