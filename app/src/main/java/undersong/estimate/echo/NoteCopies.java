package undersong.estimate.echo;

import java.util.Arrays;
import java.util.stream.IntStream;
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

  /** Semitones to other notes of a chord that holds the note. */
  private static final int[] BESIDE = {-4, -3, 3, 4, 5, 7};

  /** How alike what sounds beside a note may be after its lag, against the note itself. */
  private static final double MOST_BESIDE = 0.9;

  /** Share of the note's energy from which on something sounds beside it: less leaks there. */
  private static final double LEAST_BESIDE = 0.1;

  private static final double SAME_BEFORE = 0.7;
  private static final double LOUDER_BEFORE = 1.2;

  /** Neighboring periods of the pitch are nearly as like; the best counts most. */
  private static final double PERIOD_SECONDS = 0.025;

  private static final int PERIOD_SHARPNESS = 12;

  private final NoteEvent note;
  private final FrameMatrix wave;
  private final CopySearch search;
  private final int longestLag;

  /** Lags that score, rising: few of thousands. */
  private final int[] lags;

  private final float[] scores;

  private NoteCopies(NoteEvent note, FrameMatrix wave, CopySearch search, int longestLag) {
    this.note = note;
    this.wave = wave;
    this.search = search;
    this.longestLag = longestLag;
    double rate = wave.clock().framesPerSecond();
    double seconds = note.span().lengthSeconds();
    float[] all = new float[longestLag];
    if (seconds >= SHORTEST_NOTE_SECONDS) {
      float[] likenesses = new float[lagsKnown()];
      float[] gains = gains(likenesses);
      int first = (int) (PART_OF_NOTE * Math.min(MOST_OF_NOTE_SECONDS, seconds) * rate);
      for (int lag = Math.max(1, first); lag < longestLag; lag++) {
        all[lag] = score(lag, gains, likenesses, (int) (PERIOD_SECONDS * rate));
      }
    }
    this.lags = IntStream.range(0, longestLag).filter(lag -> all[lag] > 0).toArray();
    this.scores = new float[lags.length];
    for (int i = 0; i < lags.length; i++) {
      scores[i] = all[lags[i]];
    }
  }

  /**
   * @param search with the wave's rate
   * @param longestLag in samples of the wave; nothing is said of longer ones
   */
  static NoteCopies of(NoteEvent note, FrameMatrix wave, CopySearch search, int longestLag) {
    return new NoteCopies(note, wave, search, longestLag);
  }

  private int lagsKnown() {
    return CopySearch.SIZE - (int) (LONGEST_NOTE_SECONDS * wave.clock().framesPerSecond()) - 1;
  }

  /** Compared anew for whoever asks: kept for every note they would fill the memory. */
  private float[] gains(float[] likenesses) {
    float[] gains = new float[likenesses.length];
    compare(hertz(), gains, likenesses);
    return gains;
  }

  private double compare(double hertz, float[] gains, float[] likenesses) {
    int length = samples();
    float[] window = new float[length + gains.length];
    int from = wave.clock().frameAt(note.span().startSeconds());
    for (int i = 0; i < window.length && from + i < wave.frames(); i++) {
      window[i] = wave.at(from + i, 0);
    }
    return search.compare(window, length, hertz, gains, likenesses);
  }

  private int samples() {
    double seconds = Math.min(LONGEST_NOTE_SECONDS, note.span().lengthSeconds());
    return (int) (seconds * wave.clock().framesPerSecond());
  }

  private double hertz() {
    return 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
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

  /** The lags in samples that score, rising. */
  int[] lags() {
    return lags.clone();
  }

  /** 0 to 1, by lag in samples. */
  float score(int lag) {
    int at = Arrays.binarySearch(lags, lag);
    return at < 0 ? 0 : scores[at];
  }

  /** The best score about a lag. */
  float scoreAbout(int lag, int reach) {
    float best = 0;
    for (int i = firstFrom(lag - reach); i < lags.length && lags[i] <= lag + reach; i++) {
      best = Math.max(best, scores[i]);
    }
    return best;
  }

  private int firstFrom(int lag) {
    int at = Arrays.binarySearch(lags, lag);
    return at < 0 ? -at - 1 : at;
  }

  /** The note's copies as levels by lag. */
  Levels levels() {
    return new Levels(gains(new float[lagsKnown()]));
  }

  /**
   * Whether the note returns after a time, and was not there that long before. Music set to a grid
   * repeats itself in both directions; a tone that goes on was there before its note begins. Where
   * the note is louder that long before it, it is a copy itself.
   */
  boolean returnsLater(double seconds) {
    double before = levelsBefore().gainAfter(seconds);
    return before < SAME_BEFORE * levels().gainAfter(seconds) || before > LOUDER_BEFORE;
  }

  /**
   * Whether the note alone returns after a time: music set to a grid does so with all that sounds
   * beside the note. A voice rich in partials lies in its neighbors' partials, too, so this is said
   * too seldom.
   */
  boolean returnsAlone(double seconds) {
    float[] likenesses = new float[lagsKnown()];
    float[] gains = new float[likenesses.length];
    double energy = compare(hertz(), gains, likenesses);
    double own = mostAbout(likenesses, seconds);
    for (int semitones : BESIDE) {
      double beside = compare(hertz() * Math.pow(2, semitones / 12.0), gains, likenesses);
      if (beside >= LEAST_BESIDE * energy && mostAbout(likenesses, seconds) > MOST_BESIDE * own) {
        return false;
      }
    }
    return true;
  }

  /** What was like the note before it, by how much earlier. */
  private Levels levelsBefore() {
    int length = samples();
    float[] gains = new float[lagsKnown()];
    float[] window = new float[length + gains.length];
    int last = wave.clock().frameAt(note.span().startSeconds()) + length - 1;
    for (int i = 0; i < window.length && i <= last; i++) {
      window[i] = last - i < wave.frames() ? wave.at(last - i, 0) : 0;
    }
    search.compare(window, length, hertz(), gains, new float[gains.length]);
    return new Levels(gains);
  }

  private double mostAbout(float[] values, double seconds) {
    int middle = (int) Math.round(seconds * wave.clock().framesPerSecond());
    double most = 0;
    for (int i = middle - DOUBTFUL_SAMPLES; i <= middle + DOUBTFUL_SAMPLES; i++) {
      most = i >= 0 && i < values.length ? Math.max(most, values[i]) : most;
    }
    return most;
  }

  /** What comes back of the note, by how much later. */
  final class Levels {
    private final float[] gains;

    private Levels(float[] gains) {
      this.gains = gains;
    }

    /** The lag in seconds of the best score about one, between samples by a parabola. */
    double refinedSeconds(int lag, int reach) {
      int best = lag;
      for (int i = Math.max(1, lag - reach); i <= Math.min(longestLag - 1, lag + reach); i++) {
        best = score(i) > score(best) ? i : best;
      }
      double bend = gains[best - 1] - 2 * gains[best] + gains[best + 1];
      double shift = bend < 0 ? 0.5 * (gains[best - 1] - gains[best + 1]) / bend : 0;
      return (best + Math.max(-0.5, Math.min(0.5, shift))) / wave.clock().framesPerSecond();
    }

    /** Level of a copy some time later against the note; 0 where it is not known. */
    double gainAfter(double seconds) {
      return mostAbout(gains, seconds);
    }
  }
}
