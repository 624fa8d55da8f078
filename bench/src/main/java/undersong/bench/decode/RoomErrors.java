package undersong.bench.decode;

import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import undersong.bench.decode.RoomLines.Row;
import undersong.estimate.echo.RoomEvidence;

/** What lines are off by in songs that were left out of them one by one. */
final class RoomErrors {
  private RoomErrors() {}

  /** Octaves, root of the mean square. */
  static double decayError(List<Row> rows) {
    return rms(leftOut(rows));
  }

  /** Share of decays within a quarter. */
  static double within(List<Row> rows) {
    double limit = Math.log(1.25) / Math.log(2);
    return leftOut(rows).map(e -> Math.abs(e) <= limit ? 1 : 0).average().orElse(0);
  }

  private static DoubleStream leftOut(List<Row> rows) {
    return songs(rows).stream()
        .flatMapToDouble(
            song -> {
              double[] lines = RoomLines.decay(without(rows, song));
              return only(rows, song).stream()
                  .flatMapToDouble(
                      r ->
                          IntStream.range(0, RoomEvidence.BANDS.size())
                              .mapToDouble(b -> RoomLines.decayError(r, lines, b)));
            });
  }

  /** Decibels, mean. */
  static double levelError(List<Row> rows) {
    return songs(rows).stream()
        .flatMapToDouble(
            song -> {
              double[] line = RoomLines.level(without(rows, song));
              return only(rows, song).stream()
                  .mapToDouble(r -> Math.abs(RoomLines.levelError(r, line)));
            })
        .average()
        .orElse(Double.NaN);
  }

  private static List<String> songs(List<Row> rows) {
    return rows.stream().map(Row::song).distinct().toList();
  }

  private static List<Row> only(List<Row> rows, String song) {
    return rows.stream().filter(r -> r.song().equals(song)).toList();
  }

  private static List<Row> without(List<Row> rows, String song) {
    return rows.stream().filter(r -> !r.song().equals(song)).toList();
  }

  static double rms(DoubleStream errors) {
    return Math.sqrt(errors.map(e -> e * e).average().orElse(0));
  }
}
