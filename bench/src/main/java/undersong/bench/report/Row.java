package undersong.bench.report;

import java.util.Map;

/**
 * One listener's scores in one song.
 *
 * @param id data set and number, never a title
 * @param copy "clean", "worn" or "real"
 * @param traits what kind of song it is: meter, swing, drift, lead
 */
public record Row(
    String id,
    String copy,
    String listener,
    Map<String, String> traits,
    Map<String, Double> scores) {
  public Row {
    traits = Map.copyOf(traits);
    scores = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(scores));
  }
}
