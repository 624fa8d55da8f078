package undersong.estimate.echo;

import undersong.feature.FrameMatrix;
import undersong.kernel.CopySearch;
import undersong.reading.NoteEvent;

/**
 * How well each lag explains what follows one note as its own copies: the samples of its partials
 * return, weaker, and after the same time again, weaker still.
 */
final class NoteCopies {
  private static final double LONGEST_NOTE_SECONDS = 0.5;
  private static final double SHORTEST_NOTE_SECONDS = 0.1;
  private static final double MOST_OF_NOTE_SECONDS = 0.9;

  /** A sound that goes on is like itself: lags within most of the note say nothing. */
  private static final double PART_OF_NOTE = 0.8;

  private static final double LEAST_GAIN = 0.15;

  /** What comes back as loud was played again. */
  private static final double MOST_GAIN = 0.75;

  private static final double LEAST_LIKENESS = 0.5;
  private static final double LEAST_RATIO = 0.2;
  private static final double MOST_RATIO = 0.8;
  private static final int DOUBTFUL_SAMPLES = 4;

  /** Neighboring periods of the pitch are nearly as like; the best counts most. */
  private static final double PERIOD_SECONDS = 0.025;

  private static final int PERIOD_SHARPNESS = 12;

  private final double rateHz;
  private final float[] gains;
  private final float[] scores;

  private NoteCopies(double rateHz, float[] gains, float[] scores) {
    this.rateHz = rateHz;
    this.gains = gains;
    this.scores = scores;
  }

  /**
   * @param search with the wave's rate
   * @param longestLag in samples of the wave; nothing is said of longer ones
   */
  static NoteCopies of(NoteEvent note, FrameMatrix wave, CopySearch search, int longestLag) {
    double rate = wave.clock().framesPerSecond();
    double seconds = note.span().lengthSeconds();
    int length = (int) (Math.min(LONGEST_NOTE_SECONDS, seconds) * rate);
    int lags = CopySearch.SIZE - (int) (LONGEST_NOTE_SECONDS * rate) - 1;
    float[] gains = new float[lags];
    float[] scores = new float[longestLag];
    if (seconds >= SHORTEST_NOTE_SECONDS) {
      float[] window = new float[length + lags];
      int from = wave.clock().frameAt(note.span().startSeconds());
      for (int i = 0; i < window.length && from + i < wave.frames(); i++) {
        window[i] = wave.at(from + i, 0);
      }
      float[] likenesses = new float[lags];
      double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
      search.compare(window, length, hertz, gains, likenesses);
      int first = (int) (PART_OF_NOTE * Math.min(MOST_OF_NOTE_SECONDS, seconds) * rate);
      for (int lag = Math.max(1, first); lag < longestLag; lag++) {
        scores[lag] = score(lag, gains, likenesses, (int) (PERIOD_SECONDS * rate));
      }
    }
    return new NoteCopies(rate, gains, scores);
  }

  private static float score(int lag, float[] gains, float[] likenesses, int period) {
    float gain = gains[lag];
    if (gain < LEAST_GAIN
        || gain > MOST_GAIN
        || likenesses[lag] < LEAST_LIKENESS
        || gain < gains[lag - 1]
        || gain < gains[lag + 1]) {
      return 0;
    }
    int second = 2 * lag;
    for (int i = 2 * lag - DOUBTFUL_SAMPLES; i <= 2 * lag + DOUBTFUL_SAMPLES; i++) {
      second = gains[i] > gains[second] ? i : second;
    }
    if (gains[second] < LEAST_RATIO * gain || gains[second] > MOST_RATIO * gain) {
      return 0;
    }
    float most = gain;
    for (int i = Math.max(0, lag - period); i <= lag + period; i++) {
      most = Math.max(most, gains[i]);
    }
    return (float) (Math.pow(gain / most, PERIOD_SHARPNESS) * likenesses[lag] * likenesses[second]);
  }

  /** 0 to 1, by lag in samples. */
  float score(int lag) {
    return scores[lag];
  }

  /** The best score about a lag. */
  float scoreAbout(int lag, int reach) {
    float best = 0;
    for (int i = Math.max(0, lag - reach); i <= Math.min(scores.length - 1, lag + reach); i++) {
      best = Math.max(best, scores[i]);
    }
    return best;
  }

  /** The lag in seconds of the best score about one, between samples by a parabola. */
  double refinedSeconds(int lag, int reach) {
    int best = lag;
    for (int i = Math.max(1, lag - reach); i <= Math.min(scores.length - 1, lag + reach); i++) {
      best = scores[i] > scores[best] ? i : best;
    }
    double bend = gains[best - 1] - 2 * gains[best] + gains[best + 1];
    double shift = bend < 0 ? 0.5 * (gains[best - 1] - gains[best + 1]) / bend : 0;
    return (best + Math.max(-0.5, Math.min(0.5, shift))) / rateHz;
  }

  /** Level of a copy some time later against the note; 0 where it is not known. */
  double gainAfter(double seconds) {
    int middle = (int) Math.round(seconds * rateHz);
    double most = 0;
    for (int i = middle - DOUBTFUL_SAMPLES; i <= middle + DOUBTFUL_SAMPLES; i++) {
      most = i >= 0 && i < gains.length ? Math.max(most, gains[i]) : most;
    }
    return most;
  }
}
