package undersong.reading;

import java.util.List;

/**
 * Deviation of the recording from A = 440 Hz.
 *
 * @param cents above 440 Hz, -50 to 50; 0 in silence
 */
public record Tuning(double cents, double probability) implements FacetValue {
  public Tuning {
    if (!(cents >= -100 && cents <= 100)) {
      throw new IllegalArgumentException(
          "Tuning of %s cents must lie within -100 to 100.".formatted(cents));
    }
    Probability.check(probability);
  }

  @Override
  public Object essence() {
    return List.of(cents);
  }
}
