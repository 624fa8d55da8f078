package undersong.bench.metrics;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** Sounds that come back: found, at which distance, and how they came about. Our own measures. */
public final class EchoMetrics {
  private EchoMetrics() {}

  /** How a repeated sound came about. */
  public enum Kind {
    /** A true delay. */
    DELAY(0.05),
    /** Performed again afterwards. */
    AGAIN(0.15),
    /** A second take at once. */
    DOUBLE(0.035),
    /** Nothing was said. */
    UNHEARD(0);

    /** How far a lag may lie from the true one. */
    final double toleranceSeconds;

    Kind(double toleranceSeconds) {
      this.toleranceSeconds = toleranceSeconds;
    }
  }

  /**
   * Sounds that come back through a stretch.
   *
   * @param endSeconds of the last copy
   */
  public record Copy(Kind kind, double startSeconds, double endSeconds, double lagSeconds) {
    boolean overlaps(Copy other) {
      return startSeconds < other.endSeconds && other.startSeconds < endSeconds;
    }

    boolean fits(Copy estimate) {
      return overlaps(estimate)
          && Math.abs(lagSeconds - estimate.lagSeconds) <= kind.toleranceSeconds;
    }
  }

  /**
   * Copies of one kind. A true one is found where an estimate of its kind overlaps at its lag; an
   * estimate is right where such a true one is. One estimate may cover several.
   */
  public static PrecisionRecall found(List<Copy> reference, List<Copy> estimated, Kind kind) {
    List<Copy> truths = reference.stream().filter(c -> c.kind == kind).toList();
    List<Copy> guesses = estimated.stream().filter(c -> c.kind == kind).toList();
    double precision =
        guesses.stream().filter(g -> truths.stream().anyMatch(t -> t.fits(g))).count();
    double recall = truths.stream().filter(t -> guesses.stream().anyMatch(t::fits)).count();
    return truths.isEmpty() || guesses.isEmpty()
        ? new PrecisionRecall(0, 0)
        : new PrecisionRecall(precision / guesses.size(), recall / truths.size());
  }

  /** Of the delays found, the distances of true and nearest estimated lag in milliseconds. */
  public static double[] lagErrorsMilliseconds(List<Copy> reference, List<Copy> estimated) {
    List<Double> errors = new ArrayList<>();
    for (Copy truth : reference) {
      if (truth.kind == Kind.DELAY) {
        estimated.stream()
            .filter(e -> e.kind == Kind.DELAY && truth.fits(e))
            .mapToDouble(e -> 1000 * Math.abs(e.lagSeconds - truth.lagSeconds))
            .min()
            .ifPresent(errors::add);
      }
    }
    return errors.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** One true copy and what was said of it. */
  public record Told(Kind truth, Kind told) {}

  /** What each true copy was told as: by the overlapping estimate whose lag lies nearest. */
  public static List<Told> told(List<Copy> reference, List<Copy> estimated) {
    List<Told> told = new ArrayList<>();
    for (Copy truth : reference) {
      Optional<Copy> nearest =
          estimated.stream()
              .filter(truth::fits)
              .min(Comparator.comparingDouble(e -> Math.abs(e.lagSeconds - truth.lagSeconds)));
      told.add(new Told(truth.kind, nearest.map(Copy::kind).orElse(Kind.UNHEARD)));
    }
    return told;
  }

  /** Of the copies that were told at all, the share told as another kind; NaN where none was. */
  public static double confused(List<Told> told) {
    List<Told> heard = told.stream().filter(t -> t.told != Kind.UNHEARD).toList();
    return heard.isEmpty()
        ? Double.NaN
        : (double) heard.stream().filter(t -> t.told != t.truth).count() / heard.size();
  }

  /** How often each true kind was told as which. */
  public static Map<Kind, Map<Kind, Long>> confusion(List<Told> told) {
    return told.stream()
        .collect(
            Collectors.groupingBy(
                Told::truth, Collectors.groupingBy(Told::told, Collectors.counting())));
  }
}
