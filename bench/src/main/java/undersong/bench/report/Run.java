package undersong.bench.report;

import java.util.List;
import java.util.Map;
import undersong.bench.metrics.Calibration;

/**
 * One run over one set.
 *
 * @param fault deliberate fault that was planted; empty as a rule
 * @param calibration by copy and facet, "clean chords"
 * @param confusion seconds of each true chord quality (outer) heard as which (inner)
 * @param copies how often each true kind of echo, second performance or double (outer) was told as
 *     which (inner)
 * @param notes what was missing or failed
 */
public record Run(
    String date,
    String commit,
    String machine,
    String fault,
    double wallSeconds,
    List<Row> rows,
    Map<String, Calibration> calibration,
    Map<String, Map<String, Double>> confusion,
    Map<String, Map<String, Long>> copies,
    List<String> notes) {
  public Run {
    copies = copies == null ? Map.of() : copies; // runs committed before echoes were scored
    rows = List.copyOf(rows);
    notes = List.copyOf(notes);
  }

  /** Scores of one metric over the songs of one listener and copy. */
  public double[] values(String listener, String copy, String metric) {
    return rows.stream()
        .filter(r -> r.listener().equals(listener) && r.copy().equals(copy))
        .filter(r -> r.scores().containsKey(metric))
        .mapToDouble(r -> r.scores().get(metric))
        .toArray();
  }
}
