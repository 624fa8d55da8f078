package undersong.feature;

import java.util.Arrays;
import undersong.time.FrameClock;

/** A growing list of values in 16-bit steps of a size known beforehand. */
final class StepList {
  private final float step;
  private short[] steps = new short[1024];
  private int size;

  /**
   * @param largest magnitude that can come; what lies beyond is held there
   */
  StepList(float largest) {
    this.step = largest / Short.MAX_VALUE;
  }

  void add(double value) {
    if (size == steps.length) {
      steps = Arrays.copyOf(steps, size + size / 2);
    }
    steps[size++] =
        (short) Math.max(-Short.MAX_VALUE, Math.min(Short.MAX_VALUE, Math.round(value / step)));
  }

  FrameMatrix toMatrix(FrameClock clock, int bins) {
    return FrameMatrix.ofSteps(clock, bins, step, Arrays.copyOf(steps, size));
  }
}
