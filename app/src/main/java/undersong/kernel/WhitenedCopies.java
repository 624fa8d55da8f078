package undersong.kernel;

import java.util.Arrays;
import org.jtransforms.fft.FloatFFT_1D;

/**
 * Compares a stretch of a whole mix with what follows it, every frequency weighing the same. What
 * is loud and steady (bass, held chords) is like itself at every lag and hides copies; with equal
 * weights (a phase transform) it counts no more than the rest, and a copy to the sample leaves a
 * peak one sample wide. Holds scratch space of its own: one object per thread.
 *
 * <p><b>Silence</b> gives likenesses and gains of 0. <b>Cost:</b> two transforms of {@link #SIZE}
 * samples a stretch, one more for each answer.
 */
public final class WhitenedCopies {
  /** A stretch and all lags must fit. */
  public static final int SIZE = 16_384;

  private static final double LOWEST_HZ = 150;
  private static final double HIGHEST_HZ = 2600;

  /** Bins over which the stretch is whitened: its own fine lines count as one. */
  private static final int STRETCH_BINS = 9;

  private static final int FOLLOWING_BINS = 25;
  private static final float FLOOR = 1e-3f;

  /** A partial of a voice that holds its pitch, at least as wide as the stretch's own line. */
  private static final double PARTIAL_SHARE = 0.008;

  private static final double PARTIAL_HZ = 5;

  /** Samples about a lag that belong to its peak and to the chance about it. */
  private static final int CHANCE_FROM = 60;

  private static final int CHANCE_TO = 330;

  private final double rateHz;
  private final FloatFFT_1D transform = new FloatFFT_1D(SIZE);
  private final float[] plain = new float[SIZE];
  private final float[] white = new float[SIZE];
  private final float[] stretch = new float[SIZE];
  private final float[] following = new float[SIZE];
  private final float[] powers = new float[SIZE / 2];
  private final float[] answer = new float[SIZE];
  private final boolean[] bins = new boolean[SIZE / 2];

  public WhitenedCopies(double rateHz) {
    this.rateHz = rateHz;
  }

  /**
   * @param window the stretch and what follows it, at most {@link #SIZE} samples
   * @param length samples of the stretch, from the window's first
   */
  public void take(float[] window, int length) {
    Arrays.fill(stretch, 0);
    Arrays.fill(following, 0);
    for (int i = 0; i < length; i++) {
      stretch[i] = (float) (window[i] * (0.5 - 0.5 * Math.cos(2 * Math.PI * i / (length - 1))));
    }
    System.arraycopy(window, 0, following, 0, window.length);
    transform.realForward(stretch);
    transform.realForward(following);
    cross(plain);
    whiten(stretch, STRETCH_BINS);
    whiten(following, FOLLOWING_BINS);
    cross(white);
  }

  /** Likeness of the whole mix by lag in samples; only ratios mean something. */
  public void all(float[] likenesses) {
    for (int k = 0; k < bins.length; k++) {
      bins[k] = inside(k * rateHz / SIZE);
    }
    answered(white, likenesses);
  }

  /** The same of what lies close to the partials of these pitches. */
  public void of(double[] hertz, float[] likenesses) {
    comb(hertz);
    answered(white, likenesses);
  }

  /** Levels of copies against the stretch itself, near the partials of these pitches. */
  public void gains(double[] hertz, float[] gains) {
    comb(hertz);
    answered(plain, gains);
    float own = gains[0];
    for (int lag = 0; lag < gains.length; lag++) {
      gains[lag] = own > 1e-9f ? gains[lag] / own : 0;
    }
  }

  /**
   * How far the best likeness within some samples of a lag stands out from those about it; about 1
   * by chance. The array must reach as far beyond the lag.
   */
  public static double standsOut(float[] likenesses, int lag, int reach) {
    float best = 0;
    for (int i = lag - reach; i <= lag + reach; i++) {
      best = Math.max(best, likenesses[i]);
    }
    int first = Math.max(0, lag - CHANCE_TO + 1);
    double squares =
        squares(likenesses, first, lag - CHANCE_FROM + 1)
            + squares(likenesses, lag + CHANCE_FROM, lag + CHANCE_TO);
    int count = Math.max(0, lag - CHANCE_FROM + 1 - first) + CHANCE_TO - CHANCE_FROM;
    return squares > 0 ? best / Math.sqrt(squares / count) : 0;
  }

  private static double squares(float[] values, int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += values[i] * values[i];
    }
    return sum;
  }

  /** Samples behind a lag that {@link #standsOut} looks at. */
  public static int reachBehind() {
    return CHANCE_TO;
  }

  private static boolean inside(double hertz) {
    return hertz > LOWEST_HZ && hertz < HIGHEST_HZ;
  }

  private void comb(double[] pitches) {
    for (int k = 0; k < bins.length; k++) {
      double frequency = k * rateHz / SIZE;
      bins[k] = false;
      for (int i = 0; i < pitches.length && inside(frequency) && !bins[k]; i++) {
        long partial = Math.max(1, Math.round(frequency / pitches[i]));
        bins[k] =
            Math.abs(frequency - partial * pitches[i])
                < Math.max(PARTIAL_HZ, PARTIAL_SHARE * frequency);
      }
    }
  }

  private void cross(float[] product) {
    product[0] = 0;
    product[1] = 0;
    for (int k = 2; k < SIZE; k += 2) {
      product[k] = following[k] * stretch[k] + following[k + 1] * stretch[k + 1];
      product[k + 1] = following[k + 1] * stretch[k] - following[k] * stretch[k + 1];
    }
  }

  /** Divides each bin by the mean level of the bins about it. */
  private void whiten(float[] spectrum, int width) {
    double mean = 0;
    for (int k = 1; k < powers.length; k++) {
      powers[k] = spectrum[2 * k] * spectrum[2 * k] + spectrum[2 * k + 1] * spectrum[2 * k + 1];
      mean += powers[k] / powers.length;
    }
    powers[0] = 0;
    double sum = 0;
    int half = width / 2;
    for (int k = 0; k < half; k++) {
      sum += powers[k];
    }
    for (int k = 0; k < powers.length; k++) {
      sum += k + half < powers.length ? powers[k + half] : 0;
      sum -= k - half - 1 >= 0 ? powers[k - half - 1] : 0;
      double level = Math.sqrt(Math.max(0, sum) / width + FLOOR * mean);
      spectrum[2 * k] = level > 1e-9 ? (float) (spectrum[2 * k] / level) : 0;
      spectrum[2 * k + 1] = level > 1e-9 ? (float) (spectrum[2 * k + 1] / level) : 0;
    }
  }

  private void answered(float[] product, float[] byLag) {
    Arrays.fill(answer, 0);
    for (int k = 1; k < bins.length; k++) {
      if (bins[k]) {
        answer[2 * k] = product[2 * k];
        answer[2 * k + 1] = product[2 * k + 1];
      }
    }
    transform.realInverse(answer, true);
    System.arraycopy(answer, 0, byLag, 0, byLag.length);
  }
}
