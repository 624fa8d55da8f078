package undersong.kernel;

import java.util.Arrays;
import org.jtransforms.fft.FloatFFT_1D;

/**
 * Compares the partials of one note with what follows it, sample by sample: a copy by a delay keeps
 * the phase of every partial, a second performance does not. A matched filter behind a comb. Holds
 * scratch space of its own: one object per thread.
 *
 * <p><b>Silence</b> gives gains and likenesses of 0. <b>Cost:</b> four transforms of {@link #SIZE}
 * samples a note.
 */
public final class CopySearch {
  /** A note and all lags must fit. */
  public static final int SIZE = 16_384;

  private static final double LOWEST_HZ = 100;
  private static final double HIGHEST_HZ = 2600;
  private static final double WIDTH_CENTS = 60;
  private static final double MOST_OF_SPACING = 0.35;

  private final double rateHz;
  private final FloatFFT_1D transform = new FloatFFT_1D(SIZE);
  private final float[] source = new float[SIZE];
  private final float[] target = new float[SIZE];
  private final float[] product = new float[SIZE];

  public CopySearch(double rateHz) {
    this.rateHz = rateHz;
  }

  /**
   * @param window the note and as many samples behind it as there are lags
   * @param length samples of the note, from the window's first
   * @param hertz its fundamental
   * @param gains written: level of a copy at each lag in samples against the note, if all that is
   *     alike there is one
   * @param likenesses written: correlation of the note's partials with what sounds at them later
   * @return energy of the note's partials
   */
  public double compare(
      float[] window, int length, double hertz, float[] gains, float[] likenesses) {
    Arrays.fill(source, 0);
    Arrays.fill(target, 0);
    int edge = Math.max(1, Math.min((int) (0.02 * rateHz), length / 4));
    for (int i = 0; i < length; i++) {
      double fade = Math.min(1, Math.min(i, length - 1 - i) / (double) edge);
      source[i] = (float) (fade * window[i]);
    }
    System.arraycopy(window, 0, target, 0, Math.min(SIZE, window.length));
    transform.realForward(source);
    transform.realForward(target);
    comb(source, length, hertz);
    comb(target, length, hertz);
    product[0] = 0;
    product[1] = 0;
    double energy = 0;
    for (int k = 2; k < SIZE; k += 2) {
      product[k] = target[k] * source[k] + target[k + 1] * source[k + 1];
      product[k + 1] = target[k + 1] * source[k] - target[k] * source[k + 1];
      energy += 2 * (source[k] * source[k] + source[k + 1] * source[k + 1]);
    }
    energy /= SIZE;
    transform.realInverse(product, true);
    transform.realInverse(target, true);
    double there = 0;
    for (int i = 0; i < length; i++) {
      there += target[i] * target[i];
    }
    for (int lag = 0; lag < gains.length; lag++) {
      gains[lag] = energy > 1e-9 ? (float) (product[lag] / energy) : 0;
      double both = energy * Math.max(0, there);
      likenesses[lag] = both > 1e-18 ? (float) (product[lag] / Math.sqrt(both)) : 0;
      there += target[lag + length] * target[lag + length] - target[lag] * target[lag];
    }
    return energy;
  }

  /** Leaves only what lies near the partials of a note. */
  private void comb(float[] spectrum, int length, double hertz) {
    spectrum[0] = 0;
    spectrum[1] = 0;
    double wide = Math.pow(2, WIDTH_CENTS / 1200) - 1;
    for (int k = 1; k < SIZE / 2; k++) {
      double frequency = k * rateHz / SIZE;
      long partial = Math.round(frequency / hertz);
      double width =
          Math.min(MOST_OF_SPACING * hertz, Math.max(1.2 * rateHz / length, wide * frequency));
      if (partial < 1
          || frequency < LOWEST_HZ
          || frequency > HIGHEST_HZ
          || Math.abs(frequency - partial * hertz) >= width) {
        spectrum[2 * k] = 0;
        spectrum[2 * k + 1] = 0;
      }
    }
  }
}
