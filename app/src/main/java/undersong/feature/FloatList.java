package undersong.feature;

import java.util.Arrays;

/** A growing list of floats without boxes. */
final class FloatList {
  private float[] values = new float[1024];
  private int size;

  void add(float value) {
    if (size == values.length) {
      values = Arrays.copyOf(values, 2 * size);
    }
    values[size++] = value;
  }

  int size() {
    return size;
  }

  float[] toArray() {
    return Arrays.copyOf(values, size);
  }
}
