package undersong.bench.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import undersong.bench.metrics.Statistics;

/** What got better and what got worse since the last committed run. */
final class Comparison {
  private static final double NOTICEABLE = 0.005;

  private Comparison() {}

  /** By mean over the songs in both runs. */
  static List<String> of(Results committed, String set, Run run) {
    Optional<Run> before = committed.of(set);
    if (before.isEmpty()) {
      return List.of("No committed run to compare with.");
    }
    List<String> lines = new ArrayList<>();
    for (Map.Entry<String, Targets.Target> metric : Targets.all().entrySet()) {
      for (String copy : List.of("clean", "worn")) {
        double now = meanInBoth(run, before.get(), copy, metric.getKey());
        double then = meanInBoth(before.get(), run, copy, metric.getKey());
        if (Math.abs(now - then) > NOTICEABLE && !metric.getKey().matches("speed.*|memory.*")) {
          boolean better = now > then != metric.getValue().lowerIsBetter();
          lines.add(
              "%s: %s (%s) %s → %s"
                  .formatted(
                      better ? "better" : "WORSE",
                      metric.getValue().words(),
                      copy,
                      Page.number(then),
                      Page.number(now)));
        }
      }
    }
    lines.sort(null);
    return lines.isEmpty()
        ? List.of("Nothing moved by more than %s.".formatted(NOTICEABLE))
        : lines;
  }

  /** Mean over the songs of one run that the other run has heard and scored as well. */
  private static double meanInBoth(Run run, Run other, String copy, String metric) {
    Set<String> ids =
        other.rows().stream()
            .filter(r -> r.listener().equals("undersong") && r.copy().equals(copy))
            .filter(r -> r.scores().containsKey(metric))
            .map(Row::id)
            .collect(Collectors.toSet());
    return Statistics.mean(
        run.rows().stream()
            .filter(r -> r.listener().equals("undersong") && r.copy().equals(copy))
            .filter(r -> ids.contains(r.id()) && r.scores().containsKey(metric))
            .mapToDouble(r -> r.scores().get(metric))
            .toArray());
  }
}
