package undersong.kernel;

import org.jtransforms.fft.FloatFFT_1D;
import org.jtransforms.utils.CommonUtils;

/**
 * Power spectra of real frames of one size. Holds scratch space of its own: one object per thread.
 */
public final class RealFft {
  static {
    // Work is shared out by frames; a transform that splits itself would only get in the way.
    CommonUtils.setThreadsBeginN_1D_FFT_2Threads(Long.MAX_VALUE);
    CommonUtils.setThreadsBeginN_1D_FFT_4Threads(Long.MAX_VALUE);
  }

  private final int size;
  private final FloatFFT_1D transform;

  /**
   * @param size samples of a frame, even
   */
  public RealFft(int size) {
    if (size <= 0 || size % 2 != 0) {
      throw new IllegalArgumentException("FFT size %d must be positive and even.".formatted(size));
    }
    this.size = size;
    this.transform = new FloatFFT_1D(size);
  }

  /**
   * Squared magnitude of each bin: {@code power[k] = scale * |X[k]|^2}, {@code 0 <= k <= size / 2}.
   *
   * @param frame length {@code size}; destroyed
   * @param power written, length at least {@code size / 2 + 1}
   */
  public void power(float[] frame, float scale, float[] power) {
    transform.realForward(frame);
    int half = size / 2;
    power[0] = scale * frame[0] * frame[0];
    power[half] = scale * frame[1] * frame[1];
    for (int k = 1; k < half; k++) {
      float re = frame[2 * k];
      float im = frame[2 * k + 1];
      power[k] = scale * (re * re + im * im);
    }
  }
}
