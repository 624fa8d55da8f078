package undersong.bench.decode;

import java.util.List;
import java.util.function.ToDoubleFunction;
import undersong.bench.render.Staging;
import undersong.estimate.echo.RoomEvidence;
import undersong.estimate.echo.RoomEvidence.Measured;

/** Lines from what is measured of rooms to what is true of them, by least squares. */
final class RoomLines {
  /** Drier than this nobody hears. */
  static final double DRY_DB = -33;

  /** Drier sections do not say how long the room falls. */
  private static final double FITTED_FROM_DB = -20;

  private RoomLines() {}

  /** A section with what was measured of it. */
  record Row(String song, Staging.Room room, Measured measured) {
    double levelDb() {
      return Math.max(DRY_DB, room.wetToDryDb());
    }

    boolean isWet() {
      return levelDb() >= FITTED_FROM_DB;
    }

    double octaves(int band) {
      return Math.log(RoomEvidence.BANDS.get(band).of(room.decaySeconds())) / Math.log(2);
    }
  }

  /** An offset for each band, then one slope for all, from measured to true octaves. */
  static double[] decay(List<Row> rows) {
    int bands = RoomEvidence.BANDS.size();
    double[] lines = new double[bands + 1];
    double[] meanX = new double[bands];
    double[] meanY = new double[bands];
    double xx = 1e-9;
    double xy = 0;
    for (int band = 0; band < bands; band++) {
      int b = band;
      meanX[b] = mean(rows, r -> r.measured.decayOctaves().get(b));
      meanY[b] = mean(rows, r -> r.octaves(b));
      for (Row row : rows) {
        double x = row.measured.decayOctaves().get(b) - meanX[b];
        xx += x * x;
        xy += x * (row.octaves(b) - meanY[b]);
      }
    }
    lines[bands] = xy / xx;
    for (int b = 0; b < bands; b++) {
      lines[b] = meanY[b] - lines[bands] * meanX[b];
    }
    return lines;
  }

  /** By how many octaves a line is off in one band. */
  static double decayError(Row row, double[] lines, int band) {
    double measured = row.measured.decayOctaves().get(band);
    return lines[band] + lines[RoomEvidence.BANDS.size()] * measured - row.octaves(band);
  }

  /** An offset, then decibels for one of what stands nowhere and one of what lags behind. */
  static double[] level(List<Row> rows) {
    double ambient = mean(rows, r -> r.measured.ambientDb());
    double lag = mean(rows, r -> r.measured.lagDb());
    double level = mean(rows, Row::levelDb);
    double aa = 1e-9;
    double ll = 1e-9;
    double al = 0;
    double at = 0;
    double lt = 0;
    for (Row row : rows) {
      double a = row.measured.ambientDb() - ambient;
      double l = row.measured.lagDb() - lag;
      double t = row.levelDb() - level;
      aa += a * a;
      ll += l * l;
      al += a * l;
      at += a * t;
      lt += l * t;
    }
    double determinant = aa * ll - al * al;
    double perAmbient = (at * ll - lt * al) / determinant;
    double perLag = (lt * aa - at * al) / determinant;
    return new double[] {level - perAmbient * ambient - perLag * lag, perAmbient, perLag};
  }

  static double levelError(Row row, double[] line) {
    return line[0]
        + line[1] * row.measured.ambientDb()
        + line[2] * row.measured.lagDb()
        - row.levelDb();
  }

  private static double mean(List<Row> rows, ToDoubleFunction<Row> of) {
    return rows.stream().mapToDouble(of).average().orElse(0);
  }
}
