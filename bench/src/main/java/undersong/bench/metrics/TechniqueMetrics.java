package undersong.bench.metrics;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * Agreement of findings with planted occurrences: equal id, and spans that overlap or lie within
 * one bar of each other. Our own measure; the field has none.
 */
public final class TechniqueMetrics {
  private TechniqueMetrics() {}

  /** Score per id, and over all under {@code "all"}. */
  public static Map<String, PrecisionRecall> score(
      List<Timed<String>> planted, List<Timed<String>> found, double barSeconds) {
    Map<String, PrecisionRecall> scores = new LinkedHashMap<>();
    Stream.concat(planted.stream(), found.stream())
        .map(Timed::value)
        .distinct()
        .sorted()
        .forEach(
            id ->
                scores.put(
                    id,
                    pooled(
                        planted.stream().filter(p -> p.value().equals(id)).toList(),
                        found.stream().filter(f -> f.value().equals(id)).toList(),
                        barSeconds)));
    scores.put("all", pooled(planted, found, barSeconds));
    return scores;
  }

  private static PrecisionRecall pooled(
      List<Timed<String>> planted, List<Timed<String>> found, double barSeconds) {
    int[] matched =
        Matching.maximum(
            planted.size(),
            found.size(),
            (p, f) ->
                planted.get(p).value().equals(found.get(f).value())
                    && gap(planted.get(p), found.get(f)) <= barSeconds);
    return PrecisionRecall.of(Matching.count(matched), planted.size(), found.size());
  }

  private static double gap(Timed<String> a, Timed<String> b) {
    return Math.max(a.startSeconds(), b.startSeconds()) - Math.min(a.endSeconds(), b.endSeconds());
  }

  /** Findings per minute, for songs in which nothing is planted. */
  public static double falseAlarmsPerMinute(List<Timed<String>> found, double lengthSeconds) {
    return found.size() / (lengthSeconds / 60);
  }
}
