package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import undersong.bench.metrics.RoomMetrics;
import undersong.bench.metrics.RoomMetrics.Change;
import undersong.bench.metrics.RoomMetrics.Room;
import undersong.bench.render.Staging;
import undersong.bench.render.Truth;
import undersong.estimate.echo.AmbientRoom;
import undersong.estimate.echo.HeardRoom;
import undersong.estimate.echo.RoomChanges;
import undersong.estimate.echo.RoomEvidence;
import undersong.estimate.echo.RoomEvidence.Expected;
import undersong.estimate.echo.RoomTeller;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.StereoPowers;
import undersong.reading.Facet;
import undersong.reading.HearingBand;
import undersong.reading.Reverb;
import undersong.reading.Section;
import undersong.study.Studied;
import undersong.time.Span;

/**
 * Fits what is told of rooms, for the ear and for a program without it: lines from what is measured
 * to what is true, over true sections; when a decay and a change are told, over the sections that
 * the program hears. Errors are also given for songs that were left out of the fit one by one.
 */
public final class RoomFit {
  private static final double DRY_DB = -33;

  /** Drier sections do not say how long the room falls. */
  private static final double FITTED_FROM_DB = -24;

  private final List<Copy> copies = new ArrayList<>();

  private RoomFit() {}

  /**
   * One copy of a song.
   *
   * @param song the same for both its copies
   * @param heard sections as the program has them
   */
  private record Copy(
      String song,
      String id,
      Features features,
      RoomEvidence ambient,
      List<Staging.Room> rooms,
      List<Span> heard) {
    List<Span> sections() {
      return rooms.stream().map(r -> new Span(r.startSeconds(), r.endSeconds())).toList();
    }
  }

  /** A section with what was measured of it. */
  private record Row(String song, Staging.Room room, Expected measured) {
    double wetDb() {
      return Math.max(DRY_DB, room.wetToDryDb());
    }
  }

  /** Makes the evidence of one copy. */
  private interface Maker {
    RoomEvidence of(RoomEvidence ambient);
  }

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets
   */
  public static void main(String[] arguments) throws IOException {
    RoomFit fit = new RoomFit();
    TuningSong.eachOf(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        fit::take);
    fit.fitted("AMBIENT", ambient -> ambient);
    boolean room =
        fit.copies.stream().allMatch(c -> c.features.heard().orElseThrow().has(EarHead.ROOM));
    if (!room) {
      System.out.println("The ear has no stage that hears rooms.");
      return;
    }
    HeardRoom.Settings chosen = fit.heard();
    System.out.println(chosen);
    fit.fitted("HEARD", ambient -> new HeardRoom(chosen, ambient));
  }

  /** First what says most of decays, then what says most of levels. */
  private HeardRoom.Settings heard() {
    HeardRoom.Settings best = HeardRoom.Settings.DEFAULTS;
    double least = Double.POSITIVE_INFINITY;
    for (double sureness : new double[] {0, 0.5, 1, 1.5, 2, 3}) {
      for (double share : new double[] {0, 0.1, 0.3, 0.5, 0.7, 1}) {
        HeardRoom.Settings tried = new HeardRoom.Settings(sureness, share, 0);
        double error = decayError(rows(ambient -> new HeardRoom(tried, ambient)));
        if (error < least) {
          least = error;
          best = tried;
        }
      }
    }
    System.out.printf("decay off by %.2f octaves: %s%n", least, best);
    least = Double.POSITIVE_INFINITY;
    HeardRoom.Settings ofDecay = best;
    for (double share : new double[] {0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1}) {
      HeardRoom.Settings tried =
          new HeardRoom.Settings(ofDecay.sureness(), ofDecay.songShare(), share);
      double error = wetError(rows(ambient -> new HeardRoom(tried, ambient)));
      System.out.printf("level off by %.2f dB at a share of %.1f%n", error, share);
      if (error < least) {
        least = error;
        best = tried;
      }
    }
    return best;
  }

  private void take(String set, Truth truth, String id, Studied studied, Features features) {
    if (!truth.staging().rooms().isEmpty()) {
      List<Span> heard =
          studied.stored().reading().get(Facet.FORM).sections().stream()
              .map(Section::span)
              .toList();
      copies.add(
          new Copy(
              truth.id(),
              set + " " + id,
              features,
              new AmbientRoom(StereoPowers.of(features.image())),
              truth.staging().rooms(),
              heard));
    }
  }

  private List<Row> rows(Maker maker) {
    List<Row> rows = new ArrayList<>();
    for (Copy copy : copies) {
      List<Expected> measured = maker.of(copy.ambient).of(copy.features, copy.sections());
      for (int i = 0; i < measured.size(); i++) {
        if (!measured.get(i).isNothing()) {
          rows.add(new Row(copy.song, copy.rooms.get(i), measured.get(i)));
        }
      }
    }
    return rows;
  }

  private void fitted(String name, Maker maker) {
    List<Row> rows = rows(maker);
    System.out.printf(
        "%s: left out one by one, decay off by %.2f octaves (rms), level by %.1f dB%n",
        name, decayError(rows), wetError(rows));
    double[] wet = line(rows, r -> r.measured.wetDb(), Row::wetDb);
    boolean decays = rows.stream().allMatch(r -> !r.measured.decayOctaves().isEmpty());
    double[] decay = decays ? decayLines(rows) : new double[RoomEvidence.BANDS.size() + 1];
    double spread =
        !decays
            ? 1
            : Math.sqrt(
                DoubleStream.of(decayErrors(rows, decay, true))
                    .map(e -> e * e)
                    .average()
                    .orElse(1));
    double wetError =
        Math.sqrt(
            rows.stream()
                .mapToDouble(r -> square(wet[0] + wet[1] * r.measured.wetDb() - r.wetDb()))
                .average()
                .orElse(0));
    List<Double> offsets =
        IntStream.range(0, RoomEvidence.BANDS.size()).mapToObj(b -> rounded(decay[b])).toList();
    RoomTeller.Settings best = null;
    double most = Double.NEGATIVE_INFINITY;
    for (double leastWet : new double[] {-33, -27, -24, -21, -18, -15, -12}) {
      for (double least : new double[] {0, 0.3, 0.4, 0.5, 0.6}) {
        RoomTeller.Settings tried =
            new RoomTeller.Settings(
                offsets,
                rounded(decay[offsets.size()]),
                rounded(spread),
                rounded(wet[0]),
                rounded(wet[1]),
                rounded(wetError),
                leastWet,
                least);
        double score = decaysRight(maker, tried);
        if (score > most) {
          most = score;
          best = tried;
        }
      }
    }
    System.out.println(best);
    RoomChanges.Settings changes = changes(maker, best);
    System.out.println(changes);
    print(maker, best, changes);
  }

  /** Of the decays told those within a quarter, less those that are not. */
  private double decaysRight(Maker maker, RoomTeller.Settings settings) {
    double right = 0;
    for (Copy copy : copies) {
      for (Reverb told : told(copy, maker, settings, copy.sections())) {
        Staging.Room real =
            copy.rooms.stream()
                .filter(r -> r.startSeconds() == told.span().startSeconds())
                .findFirst()
                .orElseThrow();
        for (HearingBand band : RoomEvidence.BANDS) {
          double said = band.of(told.decaySeconds());
          if (said > 0) {
            double off = Math.abs(Math.log(said / band.of(real.decaySeconds())));
            right += off <= Math.log(1.25) ? 1 : -1;
          }
        }
      }
    }
    return right;
  }

  private static List<Reverb> told(
      Copy copy, Maker maker, RoomTeller.Settings settings, List<Span> sections) {
    return new RoomTeller(settings)
        .told(sections, maker.of(copy.ambient).of(copy.features, sections));
  }

  /** The settings with which most changes are told rightly over the sections as heard. */
  private RoomChanges.Settings changes(Maker maker, RoomTeller.Settings settings) {
    List<List<Reverb>> told = copies.stream().map(c -> told(c, maker, settings, c.heard)).toList();
    RoomChanges.Settings best = RoomChanges.Settings.HEARD;
    double most = -1;
    for (double leastDb : new double[] {2, 2.5, 3, 3.5, 4, 4.5, 5, 6}) {
      for (double wanders : new double[] {0, 1, 2, 3, 4, 5}) {
        RoomChanges.Settings tried = new RoomChanges.Settings(leastDb, wanders, 0);
        double f = changesF(told, tried);
        if (f > most) {
          most = f;
          best = tried;
        }
      }
    }
    System.out.printf("changes F %.3f over all copies%n", most);
    return best;
  }

  /** Over the changes of all copies together, so that false ones count where there are none. */
  private double changesF(List<List<Reverb>> told, RoomChanges.Settings settings) {
    double found = 0;
    double real = 0;
    double said = 0;
    for (int i = 0; i < copies.size(); i++) {
      List<Change> truth = RoomMetrics.changes(truth(copies.get(i)));
      List<Change> guess = guess(RoomChanges.told(told.get(i), settings));
      found += truth.isEmpty() ? 0 : RoomMetrics.found(truth, guess).recall() * truth.size();
      real += truth.size();
      said += guess.size();
    }
    return 2 * found / Math.max(1, real + said);
  }

  private static List<Room> truth(Copy copy) {
    return copy.rooms.stream()
        .map(r -> new Room(r.startSeconds(), r.endSeconds(), r.decaySeconds(), r.wetToDryDb()))
        .toList();
  }

  private static List<Change> guess(List<Reverb> rooms) {
    return rooms.stream()
        .filter(r -> r.changeDb() != 0)
        .map(r -> new Change(r.span().startSeconds(), r.changeDb()))
        .toList();
  }

  /** Scores as the bench has them, over the sections as heard. */
  private void print(Maker maker, RoomTeller.Settings settings, RoomChanges.Settings changes) {
    for (String kind : List.of("clean", "worn")) {
      List<RoomMetrics.Score> scores = new ArrayList<>();
      List<Double> changesF = new ArrayList<>();
      for (Copy copy : copies) {
        if (copy.id.contains(kind)) {
          List<Reverb> told = RoomChanges.told(told(copy, maker, settings, copy.heard), changes);
          List<Room> rooms =
              told.stream()
                  .map(
                      r ->
                          new Room(
                              r.span().startSeconds(),
                              r.span().endSeconds(),
                              r.decaySeconds(),
                              r.wetToDryDb()))
                  .toList();
          RoomMetrics.Score score = RoomMetrics.score(truth(copy), rooms);
          scores.add(score);
          List<Change> truth = RoomMetrics.changes(truth(copy));
          double f = RoomMetrics.found(truth, guess(told)).f();
          if (!truth.isEmpty()) {
            changesF.add(f);
          }
          System.out.printf(
              "  %-32s ratio %.2f within %.2f told %.2f, level off by %.1f dB, changes %d told %d F"
                  + " %.2f%n",
              copy.id,
              score.medianRatio(),
              score.within(),
              score.told(),
              score.wetErrorDb(),
              truth.size(),
              guess(told).size(),
              f);
        }
      }
      System.out.printf(
          "%s: decay ratio %.2f, within a quarter %.2f, told %.2f, level off by %.1f dB, changes F"
              + " %.2f%n",
          kind,
          mean(scores, RoomMetrics.Score::medianRatio),
          mean(scores, RoomMetrics.Score::within),
          mean(scores, RoomMetrics.Score::told),
          mean(scores, RoomMetrics.Score::wetErrorDb),
          changesF.stream().mapToDouble(f -> f).average().orElse(Double.NaN));
    }
  }

  private static double mean(
      List<RoomMetrics.Score> scores, ToDoubleFunction<RoomMetrics.Score> of) {
    return scores.stream()
        .mapToDouble(of)
        .filter(v -> !Double.isNaN(v))
        .average()
        .orElse(Double.NaN);
  }

  /** Intercept and slope by least squares. */
  private static double[] line(
      List<Row> rows, ToDoubleFunction<Row> from, ToDoubleFunction<Row> to) {
    double meanX = rows.stream().mapToDouble(from).average().orElse(0);
    double meanY = rows.stream().mapToDouble(to).average().orElse(0);
    double xx = 1e-9;
    double xy = 0;
    for (Row row : rows) {
      double x = from.applyAsDouble(row) - meanX;
      xx += x * x;
      xy += x * (to.applyAsDouble(row) - meanY);
    }
    return new double[] {meanY - xy / xx * meanX, xy / xx};
  }

  private static double octaves(Row row, int band) {
    return Math.log(RoomEvidence.BANDS.get(band).of(row.room.decaySeconds())) / Math.log(2);
  }

  /** An offset for each band, then one slope for all. */
  private static double[] decayLines(List<Row> rows) {
    List<Row> wet = rows.stream().filter(r -> r.wetDb() >= FITTED_FROM_DB).toList();
    int bands = RoomEvidence.BANDS.size();
    double[] lines = new double[bands + 1];
    double[] meanX = new double[bands];
    double[] meanY = new double[bands];
    double xx = 1e-9;
    double xy = 0;
    for (int band = 0; band < bands; band++) {
      int b = band;
      meanX[b] =
          wet.stream().mapToDouble(r -> r.measured.decayOctaves().get(b)).average().orElse(0);
      meanY[b] = wet.stream().mapToDouble(r -> octaves(r, b)).average().orElse(0);
      for (Row row : wet) {
        double x = row.measured.decayOctaves().get(b) - meanX[b];
        xx += x * x;
        xy += x * (octaves(row, b) - meanY[b]);
      }
    }
    lines[bands] = xy / xx;
    for (int b = 0; b < bands; b++) {
      lines[b] = meanY[b] - lines[bands] * meanX[b];
    }
    return lines;
  }

  /**
   * @param perSpread in units of what each was said to spread
   */
  private static double[] decayErrors(List<Row> rows, double[] lines, boolean perSpread) {
    int bands = RoomEvidence.BANDS.size();
    return rows.stream()
        .filter(r -> r.wetDb() >= FITTED_FROM_DB)
        .flatMapToDouble(
            r ->
                IntStream.range(0, bands)
                    .mapToDouble(
                        b ->
                            (lines[b]
                                    + lines[bands] * r.measured.decayOctaves().get(b)
                                    - octaves(r, b))
                                / (perSpread ? r.measured.spreadOctaves().get(b) : 1)))
        .toArray();
  }

  /** NaN where no decay is measured. */
  private static double decayError(List<Row> rows) {
    if (rows.stream().anyMatch(r -> r.measured.decayOctaves().isEmpty())) {
      return Double.NaN;
    }
    double[] errors =
        songs(rows).stream()
            .flatMapToDouble(
                song ->
                    DoubleStream.of(
                        decayErrors(only(rows, song), decayLines(without(rows, song)), false)))
            .toArray();
    return Math.sqrt(Arrays.stream(errors).map(e -> e * e).average().orElse(0));
  }

  private static double wetError(List<Row> rows) {
    double sum = 0;
    for (String song : songs(rows)) {
      double[] wet = line(without(rows, song), r -> r.measured.wetDb(), Row::wetDb);
      for (Row row : only(rows, song)) {
        sum += Math.abs(wet[0] + wet[1] * row.measured.wetDb() - row.wetDb());
      }
    }
    return sum / Math.max(1, rows.size());
  }

  private static List<String> songs(List<Row> rows) {
    return rows.stream().map(Row::song).distinct().toList();
  }

  private static List<Row> only(List<Row> rows, String song) {
    return rows.stream().filter(r -> r.song.equals(song)).toList();
  }

  private static List<Row> without(List<Row> rows, String song) {
    return rows.stream().filter(r -> !r.song.equals(song)).toList();
  }

  private static double square(double x) {
    return x * x;
  }

  private static double rounded(double value) {
    return Math.round(100 * value) / 100.0;
  }
}
