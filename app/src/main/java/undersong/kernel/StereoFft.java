package undersong.kernel;

import org.jtransforms.fft.FloatFFT_1D;

/**
 * Powers and likeness of two real channels, by one complex transform of both. Holds scratch space
 * of its own: one object per thread.
 */
public final class StereoFft {
  private final int size;
  private final float[] window;
  private final float[] both;
  private final FloatFFT_1D transform;

  /**
   * @param window taper, read and kept; its length, even, is the size of a frame
   */
  public StereoFft(float[] window) {
    this.size = window.length;
    this.window = window;
    this.both = new float[2 * size];
    this.transform = new FloatFFT_1D(size);
  }

  /**
   * For each bin {@code 0 <= k <= size / 2}: {@code leftPower[k] = scale * |L[k]|^2}, the same for
   * the right, and {@code cross[k] = scale * Re(L[k] conj(R[k]))}.
   *
   * @param interleaved left, right, left, right ...; read from frame {@code from}
   * @param leftPower written, as are {@code rightPower} and {@code cross}
   */
  public void covariances(
      float[] interleaved,
      int from,
      float scale,
      float[] leftPower,
      float[] rightPower,
      float[] cross) {
    for (int n = 0; n < size; n++) {
      both[2 * n] = window[n] * interleaved[2 * (from + n)];
      both[2 * n + 1] = window[n] * interleaved[2 * (from + n) + 1];
    }
    transform.complexForward(both);
    covariances(both, scale, leftPower, rightPower, cross);
  }

  /**
   * The same from a transform that is there already.
   *
   * @param both transform of left + i right, interleaved real and imaginary parts; read
   */
  static void covariances(
      float[] both, float scale, float[] leftPower, float[] rightPower, float[] cross) {
    int size = both.length / 2;
    // With left and right real, what is even in the transform belongs to left, what is odd to
    // right.
    for (int k = 0; k <= size / 2; k++) {
      int mirror = 2 * ((size - k) % size);
      float leftRe = (both[2 * k] + both[mirror]) / 2;
      float leftIm = (both[2 * k + 1] - both[mirror + 1]) / 2;
      float rightRe = (both[2 * k + 1] + both[mirror + 1]) / 2;
      float rightIm = (both[mirror] - both[2 * k]) / 2;
      leftPower[k] = scale * (leftRe * leftRe + leftIm * leftIm);
      rightPower[k] = scale * (rightRe * rightRe + rightIm * rightIm);
      cross[k] = scale * (leftRe * rightRe + leftIm * rightIm);
    }
  }
}
