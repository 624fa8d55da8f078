package undersong.kernel;

import java.util.Arrays;
import org.jtransforms.fft.FloatFFT_1D;

/**
 * Compares a stretch of a whole mix with what follows it, every frequency weighing the same. What
 * is loud and steady (bass, held chords) is like itself at every lag and hides copies; with equal
 * weights (a phase transform) it counts no more than the rest, and a copy to the sample leaves a
 * peak one sample wide. Holds scratch space of its own: one object per thread.
 *
 * <p><b>Silence</b> gives likenesses of 0. <b>Cost:</b> three transforms of {@link #SIZE} samples a
 * stretch.
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

  private final FloatFFT_1D transform = new FloatFFT_1D(SIZE);
  private final float[] product = new float[SIZE];
  private final float[] stretch = new float[SIZE];
  private final float[] following = new float[SIZE];
  private final float[] powers = new float[SIZE / 2];
  private final double rateHz;

  public WhitenedCopies(double rateHz) {
    this.rateHz = rateHz;
  }

  /**
   * Likeness of the stretch with what follows it, by lag; only ratios mean something.
   *
   * @param window the stretch and what follows it, at most {@link #SIZE} samples
   * @param length samples of the stretch, from the window's first
   * @param likenesses written, by lag in samples
   */
  public void compare(float[] window, int length, float[] likenesses) {
    Arrays.fill(stretch, 0);
    Arrays.fill(following, 0);
    for (int i = 0; i < length; i++) {
      stretch[i] = (float) (window[i] * (0.5 - 0.5 * Math.cos(2 * Math.PI * i / (length - 1))));
    }
    System.arraycopy(window, 0, following, 0, window.length);
    transform.realForward(stretch);
    transform.realForward(following);
    whiten(stretch, STRETCH_BINS);
    whiten(following, FOLLOWING_BINS);
    Arrays.fill(product, 0);
    for (int k = 1; k < SIZE / 2; k++) {
      double hertz = k * rateHz / SIZE;
      if (hertz > LOWEST_HZ && hertz < HIGHEST_HZ) {
        int re = 2 * k;
        int im = re + 1;
        product[re] = following[re] * stretch[re] + following[im] * stretch[im];
        product[im] = following[im] * stretch[re] - following[re] * stretch[im];
      }
    }
    transform.realInverse(product, true);
    System.arraycopy(product, 0, likenesses, 0, likenesses.length);
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
}
