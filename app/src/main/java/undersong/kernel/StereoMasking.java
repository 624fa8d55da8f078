package undersong.kernel;

import java.util.Arrays;
import org.jtransforms.fft.FloatFFT_1D;

/**
 * Streams two channels through short-time spectra and scales every bin of both by one real gain, so
 * that sounds keep their place. Windows of 4096 samples, a quarter of a window apart, Hann before
 * and after; all gains 1 give the input back. Output sample n belongs to input sample n.
 *
 * <p>Stateful: one object per stream.
 */
public final class StereoMasking {
  public static final int WINDOW = 4096;
  public static final int BINS = WINDOW / 2 + 1;
  private static final int HOP = WINDOW / 4;
  private static final float[] HANN = Windows.periodicHann(WINDOW);

  /** Four squared Hann windows a quarter apart add up to this. */
  private static final float OVERLAP = 1.5f;

  /** Decides the gains; sees each frame once, in order. */
  public interface Mask {
    /** How many frames ahead of the one it decides it must have seen. */
    int lookAheadFrames();

    /**
     * @param left squared magnitude of each bin, read only during the call; {@code right} likewise
     * @param cross real part of left times conjugate right
     */
    void see(float[] left, float[] right, float[] cross);

    /**
     * @param gains written, {@link #BINS} values: for the frame {@link #lookAheadFrames()} before
     *     the last one seen
     */
    void gains(float[] gains);
  }

  /** Takes the samples that are done: interleaved pairs, read only during the call. */
  public interface Sink {
    void accept(float[] interleaved, int frames);
  }

  private final Mask mask;
  private final Sink sink;
  private final FloatFFT_1D transform = new FloatFFT_1D(WINDOW);
  private final float[] input = new float[2 * WINDOW];
  private final float[] output = new float[2 * WINDOW];
  private final float[] left = new float[BINS];
  private final float[] right = new float[BINS];
  private final float[] cross = new float[BINS];
  private final float[] gains = new float[BINS];
  private final float[][] waiting;
  private int seen;
  private int decided;
  private int filled = WINDOW - HOP; // silence before the first sample
  private long taken;
  private long given;
  private long skip = WINDOW - HOP; // what the silence before gives back

  public StereoMasking(Mask mask, Sink sink) {
    this.mask = mask;
    this.sink = sink;
    this.waiting = new float[mask.lookAheadFrames() + 1][2 * WINDOW];
  }

  public void push(float[] interleaved, int frames) {
    taken += frames;
    int at = 0;
    while (at < frames) {
      int run = Math.min(frames - at, WINDOW - filled);
      System.arraycopy(interleaved, 2 * at, input, 2 * filled, 2 * run);
      filled += run;
      at += run;
      if (filled == WINDOW) {
        frame();
      }
    }
  }

  /** Gives all that is left. Call once, after the last block. */
  public void finish() {
    while (given < taken) {
      Arrays.fill(input, 2 * filled, input.length, 0);
      filled = WINDOW;
      frame();
    }
  }

  private void frame() {
    float[] both = waiting[seen % waiting.length];
    for (int n = 0; n < WINDOW; n++) {
      both[2 * n] = HANN[n] * input[2 * n];
      both[2 * n + 1] = HANN[n] * input[2 * n + 1];
    }
    transform.complexForward(both);
    StereoFft.covariances(both, 1, left, right, cross);
    mask.see(left, right, cross);
    seen++;
    if (seen - decided > mask.lookAheadFrames()) {
      mask.gains(gains);
      scale(waiting[decided % waiting.length]);
      decided++;
    }
    System.arraycopy(input, 2 * HOP, input, 0, 2 * (WINDOW - HOP));
    filled = WINDOW - HOP;
  }

  private void scale(float[] both) {
    for (int k = 0; k < BINS; k++) {
      both[2 * k] *= gains[k];
      both[2 * k + 1] *= gains[k];
      if (k > 0 && k < WINDOW / 2) {
        both[2 * (WINDOW - k)] *= gains[k];
        both[2 * (WINDOW - k) + 1] *= gains[k];
      }
    }
    transform.complexInverse(both, true);
    for (int n = 0; n < WINDOW; n++) {
      output[2 * n] += HANN[n] * both[2 * n] / OVERLAP;
      output[2 * n + 1] += HANN[n] * both[2 * n + 1] / OVERLAP;
    }
    give();
    System.arraycopy(output, 2 * HOP, output, 0, 2 * (WINDOW - HOP));
    Arrays.fill(output, 2 * (WINDOW - HOP), output.length, 0);
  }

  private void give() {
    if (skip > 0) {
      skip -= HOP;
      return;
    }
    int count = (int) Math.min(HOP, taken - given);
    sink.accept(output, count);
    given += count;
  }
}
