package undersong.estimate.melody;

import undersong.feature.FrameMatrix;

/**
 * The likeliest path of one leading pitch through the frames, or of no pitch, by the Viterbi
 * algorithm: neighbors within two semitones are cheap to reach, every other pitch costs a jump.
 *
 * <p>Cost: O(frames * 264 * 13).
 */
final class LeadPath {
  private static final int REACH_BINS = 6;
  private static final int SPREAD_BINS = 2;
  private static final double FLOOR = 1e-5;
  private static final int SILENT = -1;

  private final int[] bins;

  private LeadPath(int[] bins) {
    this.bins = bins;
  }

  /**
   * @param lead pitch probabilities given that the lead sounds
   * @param voicing bin 0: probability that it sounds, same clock
   */
  static LeadPath find(FrameMatrix lead, FrameMatrix voicing, MelodySettings settings) {
    int pitches = lead.bins();
    int frames = Math.min(lead.frames(), voicing.frames());
    short[][] from = new short[frames][pitches + 1];
    double[] score = new double[pitches + 1];
    double[] next = new double[pitches + 1];
    float[] row = new float[pitches];
    float[] mass = new float[pitches];
    for (int frame = 0; frame < frames; frame++) {
      int best = argmax(score, pitches);
      double jump = score[best] - settings.jumpCost();
      double fromSilence = score[pitches] - settings.voicingCost();
      lead.copyFrame(frame, row);
      sumNeighbors(row, mass);
      double sounding = settings.voicing(voicing.at(frame, 0));
      for (int bin = 0; bin < pitches; bin++) {
        double top = jump;
        int source = best;
        if (fromSilence > top) {
          top = fromSilence;
          source = pitches;
        }
        int high = Math.min(pitches - 1, bin + REACH_BINS);
        for (int near = Math.max(0, bin - REACH_BINS); near <= high; near++) {
          double candidate = score[near] - settings.stepCost() * Math.abs(near - bin);
          if (candidate > top) {
            top = candidate;
            source = near;
          }
        }
        from[frame][bin] = (short) source;
        next[bin] = top + Math.log(sounding * mass[bin] + FLOOR);
      }
      double toSilence = score[best] - settings.voicingCost();
      boolean stays = score[pitches] >= toSilence;
      from[frame][pitches] = (short) (stays ? pitches : best);
      next[pitches] = Math.max(score[pitches], toSilence) + Math.log(1 - sounding + FLOOR);
      double[] spare = score;
      score = next;
      next = spare;
    }
    int[] bins = new int[frames];
    int state = frames == 0 ? 0 : argmax(score, pitches + 1);
    for (int frame = frames - 1; frame >= 0; frame--) {
      bins[frame] = state == pitches ? SILENT : state;
      state = from[frame][state];
    }
    return new LeadPath(bins);
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

  int frames() {
    return bins.length;
  }

  boolean soundsAt(int frame) {
    return bins[frame] != SILENT;
  }

  int binAt(int frame) {
    return bins[frame];
  }

  private static int argmax(double[] values, int length) {
    int best = 0;
    for (int i = 1; i < length; i++) {
      if (values[i] > values[best]) {
        best = i;
      }
    }
    return best;
  }
}
