package undersong.bench.metrics;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** When layers enter and leave. Our own measure. */
public final class LayerMetrics {
  private LayerMetrics() {}

  /** What was matched of what is true and what was told. */
  public record Counts(int matches, int references, int estimates) {
    public Counts and(Counts other) {
      return new Counts(
          matches + other.matches, references + other.references, estimates + other.estimates);
    }

    /** NaN scores where nothing is true and nothing told. */
    public PrecisionRecall score() {
      return references + estimates == 0
          ? new PrecisionRecall(Double.NaN, Double.NaN)
          : PrecisionRecall.of(matches, references, estimates);
    }
  }

  /**
   * Entries and exits within a window, pooled over the layers named; those within a bar of the
   * song's first and last beat are left out on both sides, since they come for free. Stretches of a
   * layer that follow each other within two bars count as one, on both sides.
   *
   * @param barSeconds the window is half of it, included
   */
  public static Counts entriesAndExits(
      List<Timed<String>> reference,
      List<Timed<String>> estimated,
      List<String> layers,
      double barSeconds,
      double firstBeatSeconds,
      double lastBeatSeconds) {
    double from = firstBeatSeconds + barSeconds;
    double to = lastBeatSeconds - barSeconds;
    Counts counts = new Counts(0, 0, 0);
    for (String layer : layers) {
      List<Timed<String>> truth = joined(reference, layer, 2 * barSeconds);
      List<Timed<String>> guess = joined(estimated, layer, 2 * barSeconds);
      for (boolean entries : new boolean[] {true, false}) {
        double[] r = edges(truth, entries, from, to);
        double[] e = edges(guess, entries, from, to);
        counts = counts.and(new Counts(Matching.within(r, e, barSeconds / 2), r.length, e.length));
      }
    }
    return counts;
  }

  private static double[] edges(
      List<Timed<String>> stretches, boolean entries, double from, double to) {
    return stretches.stream()
        .mapToDouble(s -> entries ? s.startSeconds() : s.endSeconds())
        .filter(s -> s > from && s < to)
        .toArray();
  }

  private static List<Timed<String>> joined(
      List<Timed<String>> stretches, String layer, double restSeconds) {
    List<Timed<String>> joined = new ArrayList<>();
    for (Timed<String> s :
        stretches.stream()
            .filter(s -> s.value().equals(layer))
            .sorted(Comparator.comparingDouble(Timed::startSeconds))
            .toList()) {
      int last = joined.size() - 1;
      if (last >= 0 && s.startSeconds() - joined.get(last).endSeconds() < restSeconds) {
        Timed<String> before = joined.get(last);
        double end = Math.max(before.endSeconds(), s.endSeconds());
        joined.set(last, new Timed<>(before.startSeconds(), end, layer));
      } else {
        joined.add(s);
      }
    }
    return joined;
  }
}
