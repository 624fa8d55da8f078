package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import undersong.bench.decode.RoomLines.Row;
import undersong.bench.render.Staging;
import undersong.bench.render.Truth;
import undersong.estimate.echo.RoomChanges;
import undersong.estimate.echo.RoomDecay;
import undersong.estimate.echo.RoomEvidence;
import undersong.estimate.echo.RoomEvidence.Measured;
import undersong.estimate.echo.RoomTeller;
import undersong.feature.Features;
import undersong.feature.StereoPowers;
import undersong.reading.Facet;
import undersong.reading.Reverb;
import undersong.reading.Section;
import undersong.study.Studied;
import undersong.time.Span;

/**
 * Fits what is told of rooms. Over true sections: how the decays of bands are put together, then
 * lines from what is measured to what is true. Over the sections that the program hears: when a
 * decay and a change are told. Errors are those of songs left out of the lines one by one. How
 * decays are put together and their lines are learned where a song has a room of its own.
 */
public final class RoomFit {
  private static final String SET_OF_ROOMS = "room-tune";

  private final List<Copy> copies = new ArrayList<>();

  private RoomFit() {}

  /**
   * One copy of a song.
   *
   * @param song the same for both its copies
   * @param heard sections as the program has them
   */
  private record Copy(
      String set,
      String song,
      boolean worn,
      RoomEvidence evidence,
      List<Staging.Room> rooms,
      List<Span> heard) {
    List<Span> sections() {
      return rooms.stream().map(r -> new Span(r.startSeconds(), r.endSeconds())).toList();
    }

    boolean hasRooms() {
      return set.equals(SET_OF_ROOMS);
    }
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
    fit.print(
        "as it stands",
        RoomDecay.Settings.STANDARD,
        RoomTeller.Settings.STANDARD,
        RoomChanges.Settings.STANDARD);
    RoomDecay.Settings decay = fit.decay();
    RoomTeller.Settings teller = fit.teller(decay);
    RoomChanges.Settings changes = fit.changes(decay, teller);
    System.out.printf("%s%n%s%n%s%n", decay, teller, changes);
    fit.print("fitted", decay, teller, changes);
  }

  private void take(String set, Truth truth, String id, Studied studied, Features features) {
    if (!truth.staging().rooms().isEmpty()) {
      List<Span> heard =
          studied.stored().reading().get(Facet.FORM).sections().stream()
              .map(Section::span)
              .toList();
      copies.add(
          new Copy(
              set,
              truth.id(),
              id.contains("worn"),
              new RoomEvidence(StereoPowers.of(features.image())),
              truth.staging().rooms(),
              heard));
    }
  }

  private List<Row> rows(RoomDecay.Settings settings, boolean roomsOnly) {
    List<Row> rows = new ArrayList<>();
    for (Copy copy : copies) {
      if (roomsOnly && !copy.hasRooms()) {
        continue;
      }
      List<Measured> measured = copy.evidence.of(copy.sections(), settings);
      for (int i = 0; i < measured.size(); i++) {
        if (!measured.get(i).isNothing()) {
          rows.add(new Row(copy.song, copy.rooms.get(i), measured.get(i)));
        }
      }
    }
    return rows;
  }

  /** Sections wet enough that their decay can be asked for. */
  private List<Row> wetRows(RoomDecay.Settings settings) {
    return rows(settings, true).stream().filter(Row::isWet).toList();
  }

  /** Setting by setting, twice round, whatever leaves the least error of songs left out. */
  private RoomDecay.Settings decay() {
    RoomDecay.Settings best = withOffsets(RoomDecay.Settings.STANDARD);
    double least = RoomErrors.decayError(wetRows(best));
    for (int round = 0; round < 2; round++) {
      for (RoomDecay.Settings tried : neighbors(best)) {
        double error = RoomErrors.decayError(wetRows(tried));
        if (error < least) {
          least = error;
          best = tried;
        }
      }
      System.out.printf("decay off by %.3f octaves: %s%n", least, best);
    }
    return best;
  }

  /** Median distance of the decay that fits best in each band from the true one in the middle. */
  private RoomDecay.Settings withOffsets(RoomDecay.Settings settings) {
    List<List<Double>> far = new ArrayList<>();
    RoomEvidence.BANDS.forEach(band -> far.add(new ArrayList<>()));
    for (Copy copy : copies) {
      for (Row row : copy.hasRooms() ? rowsOf(copy, settings) : List.<Row>of()) {
        Span span = new Span(row.room().startSeconds(), row.room().endSeconds());
        List<Double> best = copy.evidence.bestOctaves(span);
        for (int b = 0; row.isWet() && b < best.size(); b++) {
          far.get(b).add(best.get(b) - row.octaves(2));
        }
      }
    }
    return new RoomDecay.Settings(
        far.stream().map(f -> rounded(median(f))).toList(),
        settings.trusts(),
        settings.misfitWeight(),
        settings.mostMisfit(),
        settings.songShare(),
        settings.bandSpread());
  }

  private static List<Row> rowsOf(Copy copy, RoomDecay.Settings settings) {
    List<Measured> measured = copy.evidence.of(copy.sections(), settings);
    return IntStream.range(0, measured.size())
        .filter(i -> !measured.get(i).isNothing())
        .mapToObj(i -> new Row(copy.song, copy.rooms.get(i), measured.get(i)))
        .toList();
  }

  private static List<RoomDecay.Settings> neighbors(RoomDecay.Settings s) {
    List<RoomDecay.Settings> all = new ArrayList<>();
    for (double weight : new double[] {0.02, 0.05, 0.1}) {
      for (double most : new double[] {2, 5, 20}) {
        for (double share : new double[] {0.1, 0.2, 0.4}) {
          all.add(
              new RoomDecay.Settings(s.offsets(), s.trusts(), weight, most, share, s.bandSpread()));
        }
      }
    }
    for (int b = 0; b < RoomEvidence.BANDS.size(); b++) {
      for (double trust : new double[] {0.2, 0.4, 0.7, 1}) {
        List<Double> trusts = new ArrayList<>(s.trusts());
        trusts.set(b, trust);
        all.add(
            new RoomDecay.Settings(
                s.offsets(),
                trusts,
                s.misfitWeight(),
                s.mostMisfit(),
                s.songShare(),
                s.bandSpread()));
      }
    }
    return all;
  }

  private RoomTeller.Settings teller(RoomDecay.Settings decay) {
    List<Row> all = rows(decay, false);
    List<Row> wet = wetRows(decay);
    double[] level = RoomLines.level(all);
    double[] lines = RoomLines.decay(wet);
    int bands = RoomEvidence.BANDS.size();
    double spread =
        RoomErrors.rms(
            wet.stream()
                .flatMapToDouble(
                    r ->
                        IntStream.range(0, bands)
                            .mapToDouble(
                                b ->
                                    RoomLines.decayError(r, lines, b)
                                        / r.measured().spreadOctaves().get(b))));
    System.out.printf(
        "left out one by one: decay off by %.2f octaves (rms; their mean by %.2f), within a quarter"
            + " %.2f; level by %.1f dB, in songs with rooms %.1f%n",
        RoomErrors.decayError(wet),
        RoomErrors.rms(
            IntStream.range(0, bands)
                .mapToObj(b -> wet.stream().mapToDouble(r -> r.octaves(b)).toArray())
                .flatMapToDouble(
                    o -> {
                      double mean = Arrays.stream(o).average().orElse(0);
                      return Arrays.stream(o).map(v -> v - mean);
                    })),
        RoomErrors.within(wet),
        RoomErrors.levelError(all),
        RoomErrors.levelError(rows(decay, true)));
    RoomTeller.Settings best = null;
    double most = Double.NEGATIVE_INFINITY;
    for (double leastLevel : new double[] {-30, -27, -24, -21, -18, -15, -12}) {
      for (double least : new double[] {0, 0.3, 0.4, 0.5, 0.6, 0.7}) {
        RoomTeller.Settings tried =
            new RoomTeller.Settings(
                IntStream.range(0, bands).mapToObj(b -> rounded(lines[b])).toList(),
                rounded(lines[bands]),
                rounded(spread),
                Arrays.stream(level).mapToObj(RoomFit::rounded).toList(),
                rounded(
                    RoomErrors.rms(all.stream().mapToDouble(r -> RoomLines.levelError(r, level)))),
                leastLevel,
                least);
        double score = decaysRight(decay, tried);
        if (score > most) {
          most = score;
          best = tried;
        }
      }
    }
    return best;
  }

  /** Of the decays told those within a quarter, less twice those that are not. */
  private double decaysRight(RoomDecay.Settings decay, RoomTeller.Settings teller) {
    double right = 0;
    for (Copy copy : copies) {
      List<Reverb> told =
          new RoomTeller(teller).told(copy.sections(), copy.evidence.of(copy.sections(), decay));
      for (Reverb room : told) {
        Staging.Room real =
            copy.rooms.stream()
                .filter(r -> r.startSeconds() == room.span().startSeconds())
                .findFirst()
                .orElseThrow();
        right +=
            RoomEvidence.BANDS.stream()
                .filter(band -> band.of(room.decaySeconds()) > 0)
                .mapToDouble(
                    band ->
                        Math.abs(
                                    Math.log(
                                        band.of(room.decaySeconds())
                                            / band.of(real.decaySeconds())))
                                <= Math.log(1.25)
                            ? 1
                            : -2)
                .sum();
      }
    }
    return right;
  }

  /**
   * The settings with which most changes are told rightly over the sections as heard, less twice
   * those told falsely: records make choruses wider more often than they change the room.
   */
  private RoomChanges.Settings changes(RoomDecay.Settings decay, RoomTeller.Settings teller) {
    RoomChanges.Settings best = RoomChanges.Settings.STANDARD;
    double most = Double.NEGATIVE_INFINITY;
    for (double ambient = 0.5; ambient <= 6; ambient += 0.5) {
      for (double lag = 0.5; lag <= 8; lag += 0.5) {
        RoomChanges.Settings tried = new RoomChanges.Settings(ambient, lag);
        RoomScores scores = new RoomScores();
        copies.forEach(copy -> scores.add(copy.rooms, told(copy, decay, teller, tried)));
        if (scores.changesWorth() > most) {
          most = scores.changesWorth();
          best = tried;
        }
      }
    }
    return best;
  }

  private static List<Reverb> told(
      Copy copy,
      RoomDecay.Settings decay,
      RoomTeller.Settings teller,
      RoomChanges.Settings changes) {
    List<Measured> measured = copy.evidence.of(copy.heard, decay);
    Map<Span, Measured> bySpan = new HashMap<>();
    IntStream.range(0, measured.size())
        .forEach(i -> bySpan.put(copy.heard.get(i), measured.get(i)));
    return RoomChanges.told(new RoomTeller(teller).told(copy.heard, measured), bySpan, changes);
  }

  private void print(
      String title,
      RoomDecay.Settings decay,
      RoomTeller.Settings teller,
      RoomChanges.Settings changes) {
    Map<String, RoomScores> scores = new TreeMap<>();
    for (Copy copy : copies) {
      scores
          .computeIfAbsent(copy.set + (copy.worn ? " worn" : " clean"), set -> new RoomScores())
          .add(copy.rooms, told(copy, decay, teller, changes));
    }
    scores.forEach((set, score) -> System.out.printf("%s, %s: %s%n", title, set, score));
  }

  private static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(v -> v).sorted().toArray();
    return sorted.length == 0 ? 0 : sorted[sorted.length / 2];
  }

  private static double rounded(double value) {
    return Math.round(100 * value) / 100.0;
  }
}
