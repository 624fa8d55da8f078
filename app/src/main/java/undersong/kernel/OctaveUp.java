package undersong.kernel;

import java.util.Arrays;
import org.jtransforms.fft.FloatFFT_1D;

/**
 * Streams one channel, keeps what lies between two frequencies and raises it an octave; its time
 * stays. Output sample n belongs to input sample n.
 *
 * <p>A phase vocoder for the one ratio that needs no unwrapping: doubling every phase doubles every
 * frequency when frames are laid out twice as far apart and the outcome is then read at double
 * speed (idea: M. Dolson, "The Phase Vocoder: A Tutorial", Computer Music Journal 10(4), 1986, from
 * memory). Windows of 8192 samples tell bass notes apart and blur a stroke by some 50 ms.
 */
public final class OctaveUp {
  private static final int WINDOW = 8192;
  private static final int GRAIN = WINDOW / 2;
  private static final int HOP = WINDOW / 16;
  private static final float[] HANN = Windows.periodicHann(WINDOW);
  private static final float[] GRAIN_HANN = Windows.periodicHann(GRAIN);

  /** Squared Hann windows of a grain's length, a hop apart, add up to this. */
  private static final float OVERLAP = 0.375f * GRAIN / HOP;

  /** Takes the samples that are done; read only during the call. */
  public interface Sink {
    void accept(float[] samples, int count);
  }

  private final Sink sink;
  private final float[] bandGains;
  private final FloatFFT_1D transform = new FloatFFT_1D(WINDOW);
  private final float[] input = new float[WINDOW];
  private final float[] frame = new float[WINDOW];
  private final float[] output = new float[GRAIN];
  private int filled = WINDOW / 2 + GRAIN / 2 - HOP; // silence before the first sample
  private long taken;
  private long given;
  private int skip = GRAIN / HOP - 1; // hops that lie before the first sample

  /**
   * @param bottom lowest frequency kept whole, as a share of the sample rate; below it falls off
   *     over half an octave
   * @param top highest frequency kept whole; above it falls off over half an octave
   */
  public OctaveUp(double bottom, double top, Sink sink) {
    this.sink = sink;
    this.bandGains = new float[WINDOW / 4];
    for (int k = 1; k < bandGains.length; k++) {
      double f = (double) k / WINDOW;
      double octavesOut = Math.max(0, Math.max(log2(bottom / f), log2(f / top)));
      bandGains[k] = (float) Math.pow(Math.cos(Math.PI / 2 * Math.min(1, 2 * octavesOut)), 2);
    }
  }

  private static double log2(double x) {
    return Math.log(x) / Math.log(2);
  }

  public void push(float[] samples, int count) {
    taken += count;
    int at = 0;
    while (at < count) {
      int run = Math.min(count - at, WINDOW - filled);
      System.arraycopy(samples, at, input, filled, run);
      filled += run;
      at += run;
      if (filled == WINDOW) {
        grain();
      }
    }
  }

  /** Gives all that is left. Call once, after the last block. */
  public void finish() {
    while (given < taken) {
      Arrays.fill(input, filled, WINDOW, 0);
      filled = WINDOW;
      grain();
    }
  }

  private void grain() {
    for (int n = 0; n < WINDOW; n++) {
      frame[(n + WINDOW / 2) % WINDOW] = HANN[n] * input[n]; // phases count from the middle
    }
    transform.realForward(frame);
    frame[0] = 0;
    frame[1] = 0;
    for (int k = 1; k < WINDOW / 2; k++) {
      float re = frame[2 * k];
      float im = frame[2 * k + 1];
      float gain = k < bandGains.length ? bandGains[k] : 0;
      float scale = gain / (float) Math.sqrt(re * re + im * im + 1e-20f);
      frame[2 * k] = scale * (re * re - im * im);
      frame[2 * k + 1] = scale * 2 * re * im;
    }
    transform.realInverse(frame, true);
    for (int n = 0; n < GRAIN; n++) {
      // Every second sample around the middle: twice as fast, half as long.
      int source = 2 * (n - GRAIN / 2);
      output[n] += GRAIN_HANN[n] * frame[Math.floorMod(source, WINDOW)] / OVERLAP;
    }
    give();
    System.arraycopy(output, HOP, output, 0, GRAIN - HOP);
    Arrays.fill(output, GRAIN - HOP, GRAIN, 0);
    System.arraycopy(input, HOP, input, 0, WINDOW - HOP);
    filled = WINDOW - HOP;
  }

  private void give() {
    if (skip > 0) {
      skip--;
      return;
    }
    int count = (int) Math.min(HOP, taken - given);
    sink.accept(output, count);
    given += count;
  }
}
