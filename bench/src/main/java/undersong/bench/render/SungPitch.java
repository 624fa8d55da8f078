package undersong.bench.render;

import java.util.List;
import undersong.bench.metrics.SungNote;

/** Measures which pitch a voice reached when it was asked for a known one. */
final class SungPitch {
  private static final double WINDOW_SECONDS = 0.04;
  private static final double REACH_SEMITONES = 2.5;
  private static final double CLEAR = 0.5;
  private static final double QUIET = 0.05;

  private SungPitch() {}

  /**
   * Strongest autocorrelation near the note asked for; 0 where the sound is soft or has no clear
   * period (consonants).
   *
   * @param sung from the first note's start, 44.1 kHz; read
   * @param hertz pitch of the whole song every 10 ms; written where a note is asked for
   */
  static void measure(List<SungNote> phrase, float[] sung, double[] hertz) {
    double origin = phrase.get(0).startSeconds();
    double loudest = 0;
    for (float v : sung) {
      loudest = Math.max(loudest, Math.abs(v));
    }
    for (SungNote note : phrase) {
      double wanted = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
      int to = (int) (note.endSeconds() / Truth.CURVE_HOP_SECONDS);
      for (int f = (int) Math.ceil(note.startSeconds() / Truth.CURVE_HOP_SECONDS);
          f <= to && f < hertz.length;
          f++) {
        int centre = (int) ((f * Truth.CURVE_HOP_SECONDS - origin) * Wave.RATE_HZ);
        hertz[f] = at(sung, centre, wanted, QUIET * loudest);
      }
    }
  }

  private static double at(float[] x, int centre, double wanted, double quiet) {
    double ratio = Math.pow(2, REACH_SEMITONES / 12);
    int shortest = (int) (Wave.RATE_HZ / (wanted * ratio));
    int longest = (int) (Wave.RATE_HZ * ratio / wanted) + 1;
    int window = (int) (WINDOW_SECONDS * Wave.RATE_HZ);
    int from = centre - (window + longest) / 2;
    if (from < 0 || from + window + longest >= x.length) {
      return 0;
    }
    double[] likeness = new double[longest + 1];
    int best = shortest;
    for (int lag = shortest; lag <= longest; lag++) {
      likeness[lag] = likeness(x, from, window, lag, quiet);
      best = likeness[lag] > likeness[best] ? lag : best;
    }
    boolean edge = best == shortest || best == longest;
    if (edge || likeness[best] < CLEAR) {
      return 0;
    }
    double before = likeness[best - 1];
    double after = likeness[best + 1];
    double bend = before - 2 * likeness[best] + after;
    double shift = bend < 0 ? 0.5 * (before - after) / bend : 0;
    return Wave.RATE_HZ / (best + shift);
  }

  private static double likeness(float[] x, int from, int window, int lag, double quiet) {
    double product = 0;
    double first = 1e-12;
    double second = 1e-12;
    for (int i = from; i < from + window; i++) {
      product += x[i] * x[i + lag];
      first += x[i] * x[i];
      second += x[i + lag] * x[i + lag];
    }
    return Math.sqrt(first / window) < quiet ? 0 : product / Math.sqrt(first * second);
  }
}
