package undersong.estimate.melody;

import undersong.feature.FrameMatrix;

/**
 * The likeliest path of one leading pitch through all frames, as if it never rested, by the Viterbi
 * algorithm: neighbors within two semitones are cheap to reach, every other pitch costs a jump.
 * Where the lead rests is asked afterwards ({@link LeadSounding}), so that a pitch is at hand
 * wherever a listener says that it sounds.
 *
 * <p>Cost: O(frames * 264 * 13).
 */
public final class LeadPath {
  private static final double FIRST_BIN_MIDI = 21 - 1.0 / 3;
  private static final int REACH_BINS = 6;
  private static final int SPREAD_BINS = 2;
  private static final double FLOOR = 1e-5;

  private final FrameMatrix lead;
  private final int[] bins;

  private LeadPath(FrameMatrix lead, int[] bins) {
    this.lead = lead;
    this.bins = bins;
  }

  /**
   * @param lead pitch probabilities given that the lead sounds
   */
  public static LeadPath find(FrameMatrix lead, MelodySettings settings) {
    int pitches = lead.bins();
    int frames = lead.frames();
    short[][] from = new short[frames][pitches];
    double[] score = new double[pitches];
    double[] next = new double[pitches];
    float[] row = new float[pitches];
    float[] mass = new float[pitches];
    for (int frame = 0; frame < frames; frame++) {
      int best = argmax(score);
      double jump = score[best] - settings.jumpCost();
      lead.copyFrame(frame, row);
      sumNeighbors(row, mass);
      for (int bin = 0; bin < pitches; bin++) {
        double top = jump;
        int source = best;
        int high = Math.min(pitches - 1, bin + REACH_BINS);
        for (int near = Math.max(0, bin - REACH_BINS); near <= high; near++) {
          double candidate = score[near] - settings.stepCost() * Math.abs(near - bin);
          if (candidate > top) {
            top = candidate;
            source = near;
          }
        }
        from[frame][bin] = (short) source;
        next[bin] = top + Math.log(mass[bin] + FLOOR);
      }
      double[] spare = score;
      score = next;
      next = spare;
    }
    int[] bins = new int[frames];
    int state = argmax(score);
    for (int frame = frames - 1; frame >= 0; frame--) {
      bins[frame] = state;
      state = from[frame][state];
    }
    return new LeadPath(lead, bins);
  }

  /** The ear spreads one pitch over some bins; together they are its probability. */
  private static void sumNeighbors(float[] row, float[] mass) {
    for (int bin = 0; bin < row.length; bin++) {
      float sum = 0;
      int high = Math.min(row.length - 1, bin + SPREAD_BINS);
      for (int near = Math.max(0, bin - SPREAD_BINS); near <= high; near++) {
        sum += row[near];
      }
      mass[bin] = sum;
    }
  }

  public int frames() {
    return bins.length;
  }

  /** Probability that the lead has the path's pitch, given that it sounds. */
  double massAt(int frame) {
    double mass = 0;
    for (int near = low(frame); near <= high(frame); near++) {
      mass += lead.at(frame, near);
    }
    return Math.min(1, mass);
  }

  /** MIDI pitch, between the bins: their mean, weighted. */
  public double pitchAt(int frame) {
    double mass = 0;
    double weighted = 0;
    for (int near = low(frame); near <= high(frame); near++) {
      mass += lead.at(frame, near);
      weighted += lead.at(frame, near) * near;
    }
    return FIRST_BIN_MIDI + (mass > 0 ? weighted / mass : bins[frame]) / 3;
  }

  private int low(int frame) {
    return Math.max(0, bins[frame] - SPREAD_BINS);
  }

  private int high(int frame) {
    return Math.min(lead.bins() - 1, bins[frame] + SPREAD_BINS);
  }

  private static int argmax(double[] values) {
    int best = 0;
    for (int i = 1; i < values.length; i++) {
      if (values[i] > values[best]) {
        best = i;
      }
    }
    return best;
  }
}
