package undersong.feature;

import java.util.Arrays;
import undersong.time.FrameClock;

/** One value per frame, with the clock that says when each frame is. Immutable. */
public final class FrameSeries {
  private final FrameClock clock;
  private final float[] values;

  /**
   * @param values copied; every value finite
   */
  public FrameSeries(FrameClock clock, float[] values) {
    this.clock = clock;
    this.values = values.clone();
    for (int frame = 0; frame < values.length; frame++) {
      if (!Float.isFinite(values[frame])) {
        throw new IllegalArgumentException(
            "Value at frame %d is %s; every frame must be finite.".formatted(frame, values[frame]));
      }
    }
  }

  public FrameClock clock() {
    return clock;
  }

  public int frames() {
    return values.length;
  }

  public float at(int frame) {
    return values[frame];
  }

  public float[] toArray() {
    return values.clone();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof FrameSeries series
        && clock.equals(series.clock)
        && Arrays.equals(values, series.values);
  }

  @Override
  public int hashCode() {
    return 31 * clock.hashCode() + Arrays.hashCode(values);
  }
}
