package undersong.feature;

import java.util.Arrays;
import undersong.time.FrameClock;

/**
 * Bins per frame, with the clock that says when each frame is. Immutable; held as 16-bit steps of a
 * common size so that three hours of music stay small.
 */
public final class FrameMatrix {
  private final FrameClock clock;
  private final int bins;
  private final float step;
  private final short[] steps;

  private FrameMatrix(FrameClock clock, int bins, float step, short[] steps) {
    if (bins <= 0 || steps.length % bins != 0) {
      throw new IllegalArgumentException(
          "%d values cannot be laid out as frames of %d bins.".formatted(steps.length, bins));
    }
    this.clock = clock;
    this.bins = bins;
    this.step = step;
    this.steps = steps;
  }

  /**
   * @param step size of one of the 65536 steps; value = step * stored short
   * @param steps frame after frame, {@code bins} each; taken over, not copied: the caller lets go
   */
  public static FrameMatrix ofSteps(FrameClock clock, int bins, float step, short[] steps) {
    return new FrameMatrix(clock, bins, step, steps);
  }

  /** Quantizes values (frame after frame) to 16 bit; the largest magnitude becomes 32767 steps. */
  public static FrameMatrix of(FrameClock clock, int bins, float[] values) {
    float largest = 0;
    for (float value : values) {
      if (!Float.isFinite(value)) {
        throw new IllegalArgumentException(
            "A feature value is %s; it must be finite.".formatted(value));
      }
      largest = Math.max(largest, Math.abs(value));
    }
    float step = largest == 0 ? 1 : largest / 32767;
    short[] steps = new short[values.length];
    for (int i = 0; i < values.length; i++) {
      steps[i] = (short) Math.round(values[i] / step);
    }
    return new FrameMatrix(clock, bins, step, steps);
  }

  public FrameClock clock() {
    return clock;
  }

  public int frames() {
    return steps.length / bins;
  }

  public int bins() {
    return bins;
  }

  public float at(int frame, int bin) {
    return step * steps[frame * bins + bin];
  }

  /**
   * @param out written, length {@link #bins()}
   */
  public void copyFrame(int frame, float[] out) {
    for (int bin = 0; bin < bins; bin++) {
      out[bin] = step * steps[frame * bins + bin];
    }
  }

  /** One step of the stored values, for writing to disk. */
  public float step() {
    return step;
  }

  /** A stored step, frames laid end to end; for writing to disk without a copy. */
  int stepsAt(int position) {
    return steps[position];
  }

  /** The stored steps, copied. */
  public short[] toSteps() {
    return steps.clone();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof FrameMatrix matrix
        && clock.equals(matrix.clock)
        && bins == matrix.bins
        && step == matrix.step
        && Arrays.equals(steps, matrix.steps);
  }

  @Override
  public int hashCode() {
    return 31 * clock.hashCode() + Arrays.hashCode(steps);
  }
}
