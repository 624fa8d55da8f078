package undersong.reading;

import java.util.Arrays;
import java.util.List;
import java.util.Map;

/** The bands that space, texture and echoes are measured in, as engineers at a desk call them. */
public enum HearingBand {
  SUB(0, 80),
  LOW(80, 250),
  LOW_MIDDLE(250, 800),
  MIDDLE(800, 2500),
  HIGH_MIDDLE(2500, 8000),
  HIGH(8000, 22_050);

  private final double bottomHz;
  private final double topHz;

  HearingBand(double bottomHz, double topHz) {
    this.bottomHz = bottomHz;
    this.topHz = topHz;
  }

  /** One number a band, in their order: those that are given, 0 for the others. */
  public static List<Double> numbers(Map<HearingBand, Double> given) {
    return Arrays.stream(values()).map(band -> given.getOrDefault(band, 0.0)).toList();
  }

  /** The number of this band of a list that has one for each. */
  public double of(List<Double> numbers) {
    return numbers.get(Arrays.asList(values()).indexOf(this));
  }

  public double bottomHz() {
    return bottomHz;
  }

  public double topHz() {
    return topHz;
  }

  public String words() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
  }
}
