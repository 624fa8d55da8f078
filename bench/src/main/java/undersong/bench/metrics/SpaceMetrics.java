package undersong.bench.metrics;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Placement between left and right, and echoes. Our own measures. */
public final class SpaceMetrics {
  private SpaceMetrics() {}

  /**
   * Mean absolute error of the panning index (-1 left to 1 right), each true stretch against what
   * the estimate says through it, weighted by time; NaN where nothing overlaps.
   */
  public static double panningError(List<Timed<Double>> reference, List<Timed<Double>> estimated) {
    double sum = 0;
    double time = 0;
    for (Timed<Double> truth : reference) {
      for (Timed<Double> guess : estimated) {
        double common = truth.overlapSeconds(guess.startSeconds(), guess.endSeconds());
        sum += common * Math.abs(truth.value() - guess.value());
        time += common;
      }
    }
    return time == 0 ? Double.NaN : sum / time;
  }

  /** How a repeated line came about. */
  public enum Repeat {
    ECHO,
    SUNG_AGAIN,
    NEITHER
  }

  /** One true repeat and what was said of it. */
  public record Told(Repeat truth, Repeat told) {}

  /** How often each true kind was told as which. */
  public static Map<Repeat, Map<Repeat, Long>> confusion(List<Told> repeats) {
    return repeats.stream()
        .collect(
            Collectors.groupingBy(
                Told::truth, Collectors.groupingBy(Told::told, Collectors.counting())));
  }

  /** Distance of two echo delays in milliseconds. */
  public static double lagErrorMilliseconds(double referenceSeconds, double estimatedSeconds) {
    return 1000 * Math.abs(referenceSeconds - estimatedSeconds);
  }
}
