package undersong.render;

import java.util.Arrays;

/** Two channels of samples between -1 and 1, equally long. */
public final class StereoAudio {
  public static final int SAMPLE_RATE_HZ = 44_100;

  private final float[] left;
  private final float[] right;

  private StereoAudio(float[] left, float[] right) {
    this.left = left;
    this.right = right;
  }

  /**
   * @param left read and copied; likewise {@code right}
   */
  public static StereoAudio of(float[] left, float[] right) {
    return owning(left.clone(), right.clone());
  }

  /** Keeps the arrays given: the caller must not touch them again. */
  static StereoAudio owning(float[] left, float[] right) {
    if (left.length != right.length) {
      throw new IllegalArgumentException(
          "Left has %d samples and right %d; both must be equally long."
              .formatted(left.length, right.length));
    }
    return new StereoAudio(left, right);
  }

  public int size() {
    return left.length;
  }

  public double durationSeconds() {
    return (double) left.length / SAMPLE_RATE_HZ;
  }

  public float left(int sample) {
    return left[sample];
  }

  public float right(int sample) {
    return right[sample];
  }

  /** A copy. */
  public float[] left() {
    return left.clone();
  }

  /** A copy. */
  public float[] right() {
    return right.clone();
  }

  /** Largest magnitude of either channel. */
  public double peak() {
    double peak = 0;
    for (int i = 0; i < left.length; i++) {
      peak = Math.max(peak, Math.max(Math.abs(left[i]), Math.abs(right[i])));
    }
    return peak;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof StereoAudio audio
        && Arrays.equals(left, audio.left)
        && Arrays.equals(right, audio.right);
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(left) + Arrays.hashCode(right);
  }
}
