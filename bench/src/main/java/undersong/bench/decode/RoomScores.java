package undersong.bench.decode;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import undersong.bench.metrics.RoomMetrics;
import undersong.bench.metrics.RoomMetrics.Change;
import undersong.bench.metrics.RoomMetrics.Room;
import undersong.bench.render.Staging;
import undersong.reading.Reverb;

/** What was told of rooms over the sections that the program hears, scored as the bench does. */
final class RoomScores {
  private final List<RoomMetrics.Score> scores = new ArrayList<>();
  private double found;
  private double real;
  private double said;

  void add(List<Staging.Room> truth, List<Reverb> told) {
    scores.add(
        RoomMetrics.score(
            rooms(truth),
            told.stream()
                .map(
                    r ->
                        new Room(
                            r.span().startSeconds(),
                            r.span().endSeconds(),
                            r.decaySeconds(),
                            r.wetToDryDb()))
                .toList()));
    List<Change> changes = RoomMetrics.changes(rooms(truth));
    List<Change> guess =
        told.stream()
            .filter(r -> r.changeDb() != 0)
            .map(r -> new Change(r.span().startSeconds(), r.changeDb()))
            .toList();
    found += changes.isEmpty() ? 0 : RoomMetrics.found(changes, guess).recall() * changes.size();
    real += changes.size();
    said += guess.size();
  }

  /** Changes of all copies together, so that false ones count where there are none. */
  double changesWorth() {
    return found - 2 * (said - found);
  }

  private double changesF() {
    return 2 * found / Math.max(1, real + said);
  }

  @Override
  public String toString() {
    return "decay ratio %.2f, within a quarter %.2f, told %.2f, level off by %.1f dB, changes: true %.0f, told %.0f, right %.0f, F %.2f"
        .formatted(
            mean(RoomMetrics.Score::medianRatio),
            mean(RoomMetrics.Score::within),
            mean(RoomMetrics.Score::told),
            mean(RoomMetrics.Score::wetErrorDb),
            real,
            said,
            found,
            changesF());
  }

  private double mean(ToDoubleFunction<RoomMetrics.Score> of) {
    return scores.stream()
        .mapToDouble(of)
        .filter(v -> !Double.isNaN(v))
        .average()
        .orElse(Double.NaN);
  }

  private static List<Room> rooms(List<Staging.Room> truth) {
    return truth.stream()
        .map(r -> new Room(r.startSeconds(), r.endSeconds(), r.decaySeconds(), r.wetToDryDb()))
        .toList();
  }
}
