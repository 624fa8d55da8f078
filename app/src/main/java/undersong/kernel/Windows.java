package undersong.kernel;

/** Taper functions. */
public final class Windows {
  private Windows() {}

  /** Periodic Hann window: {@code 0.5 - 0.5 cos(2 pi n / size)}; its sum is {@code size / 2}. */
  public static float[] periodicHann(int size) {
    float[] window = new float[size];
    for (int n = 0; n < size; n++) {
      window[n] = (float) (0.5 - 0.5 * Math.cos(2 * Math.PI * n / size));
    }
    return window;
  }

  /**
   * Writes {@code samples[from + n] * window[n]}; what lies outside {@code samples} is zero.
   *
   * @param samples read
   * @param from may be negative
   * @param out written, as long as {@code window}
   */
  public static void apply(float[] window, float[] samples, int from, float[] out) {
    for (int n = 0; n < window.length; n++) {
      int at = from + n;
      out[n] = at >= 0 && at < samples.length ? samples[at] * window[n] : 0;
    }
  }
}
