package undersong.bench.report;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import undersong.bench.metrics.Statistics;
import undersong.bench.render.SongList;

/** Writes {@code bench/RESULTS.md} from the runs at hand and those committed last. */
public final class Page {
  private final StringBuilder text = new StringBuilder();
  private final Results results;
  private final Results committed;

  private Page(Results results, Results committed) {
    this.results = results;
    this.committed = committed;
  }

  /**
   * Adds a run to the results, writes page and pictures anew, tells what moved. A run with a
   * deliberate fault is compared and not kept.
   */
  public static List<String> publish(String set, Run run) throws IOException {
    if (!run.fault().isEmpty()) {
      return Comparison.of(Results.committed(), set, run);
    }
    Path json = Bench.home().resolve("results.json");
    Results results = Results.read(json).with(set, run);
    results.write(json);
    Page page = new Page(results, Results.committed());
    page.write();
    Files.writeString(Bench.home().resolve("RESULTS.md"), page.text.toString());
    Pictures.write(set, run, Bench.home().resolve("pictures"));
    return Comparison.of(page.committed, set, run);
  }

  private void line(String format, Object... values) {
    text.append(values.length == 0 ? format : String.format(Locale.ROOT, format, values))
        .append('\n');
  }

  private void plain(String text) {
    line("%s", text);
  }

  private void write() throws IOException {
    line("# How well it hears, measured");
    line("");
    line("Written by `./measure`; do not edit. Metrics: definitions of mir_eval, named with their");
    line("tolerance; each tested on hand-worked cases. Renderings: charts nobody here wrote (ids");
    line(
        "name the data set) and charts of our own (`own-`), played by a soundfont that no"
            + " training");
    line(
        "has seen; *worn* = the same song after compression, saturation, a room, bent EQ,"
            + " detuning,");
    line("noise and MP3 at 64 to 96 kb/s. Worst decile: the 10th percentile (90th for errors).");
    line("How songs are made and what our own measures mean: [README](README.md).");
    for (String set : List.of("full", "quick", "last", "space", "room", "tune", "space-tune")) {
      if (results.of(set).isPresent()) {
        set(set, results.of(set).get());
      }
    }
    results.of("real").ifPresent(this::real);
    results.of("ceilings").ifPresent(this::ceilings);
    results.of("speed").ifPresent(this::speed);
    line("");
    line("## Published figures, for scale");
    line("");
    Targets.ANCHORS.forEach(a -> line("- " + a));
  }

  private void heading(String set, Run run) {
    line("");
    line("## Set \"%s\"", set);
    line("");
    line(
        "%s, commit %s, %s; %.0f s in all.",
        run.date(), run.commit(), run.machine(), run.wallSeconds());
    line("");
  }

  private void set(String set, Run run) throws IOException {
    heading(set, run);
    long songs = run.rows().stream().map(Row::id).distinct().count();
    int all = SongList.of(set).size();
    line("%d songs of %d%s.", songs, all, songs < all ? ": the run did not reach the rest" : "");
    line("");
    line(
        "| metric | aim clean / worn | clean mean | median | worst decile | worn mean | median |"
            + " worst decile | without the ear, clean | trivial clean | aubio clean / worn |");
    line("|---|---|---|---|---|---|---|---|---|---|---|");
    Targets.all()
        .forEach(
            (metric, target) -> {
              double[] clean = run.values("undersong", "clean", metric);
              double[] worn = run.values("undersong", "worn", metric);
              if (clean.length + worn.length > 0) {
                line(
                    "| %s | %s | %s | %s | %s | %s | %s |",
                    target.words(),
                    number(target.clean()) + " / " + number(target.worn()),
                    three(clean, target),
                    three(worn, target),
                    number(Statistics.mean(run.values("classical", "clean", metric))),
                    number(Statistics.mean(run.values("trivial", "clean", metric))),
                    both(run, "aubio", metric));
              }
            });
    PeerTables.ratios(run).forEach(this::plain);
    PeerTables.copies(run).forEach(this::plain);
    byKind(run);
    calibration(set, run);
    changes(set, run);
    songs(set, run);
    missing(run);
  }

  private static String both(Run run, String listener, String metric) {
    return number(Statistics.mean(run.values(listener, "clean", metric)))
        + " / "
        + number(Statistics.mean(run.values(listener, "worn", metric)));
  }

  private static String three(double[] values, Targets.Target target) {
    return number(Statistics.mean(values))
        + " | "
        + number(Statistics.median(values))
        + " | "
        + number(Statistics.quantile(values, target.lowerIsBetter() ? 0.9 : 0.1));
  }

  static String number(double value) {
    return Double.isNaN(value)
        ? "-"
        : String.format(Locale.ROOT, Math.abs(value) < 10 ? "%.3f" : "%.0f", value);
  }

  private void byKind(Run run) {
    line("");
    line("By kind of song (mean of clean / worn; songs):");
    line("");
    line("| kind | songs | beats F | downbeats F | meter | majmin | melody raw pitch | overall |");
    line("|---|---|---|---|---|---|---|---|");
    kind(run, "4/4", r -> r.traits().get("meter").equals("4/4"));
    kind(run, "3/4", r -> r.traits().get("meter").equals("3/4"));
    kind(run, "6/8 and 12/8", r -> r.traits().get("meter").endsWith("/8"));
    kind(run, "5/4", r -> r.traits().get("meter").equals("5/4"));
    kind(run, "swing", r -> r.traits().get("swing").equals("yes"));
    kind(run, "drifting tempo", r -> r.traits().get("drift").equals("yes"));
    kind(run, "sung lead", r -> r.traits().get("lead").equals("sung"));
    kind(run, "played lead", r -> r.traits().get("lead").equals("played"));
  }

  private void kind(Run run, String name, Predicate<Row> filter) {
    List<Row> rows =
        run.rows().stream().filter(r -> r.listener().equals("undersong")).filter(filter).toList();
    if (rows.isEmpty()) {
      return;
    }
    StringBuilder cells = new StringBuilder();
    for (String metric :
        List.of(
            "beats.f",
            "downbeats.f",
            "meter.right",
            "chords.majmin",
            "melody.rawPitch",
            "melody.overall")) {
      cells.append(" | ").append(mean(rows, "clean", metric)).append(" / ");
      cells.append(mean(rows, "worn", metric));
    }
    line("| %s | %d%s |", name, rows.stream().map(Row::id).distinct().count(), cells);
  }

  private static String mean(List<Row> rows, String copy, String metric) {
    return number(
        Statistics.mean(
            rows.stream()
                .filter(r -> r.copy().equals(copy) && r.scores().containsKey(metric))
                .mapToDouble(r -> r.scores().get(metric))
                .toArray()));
  }

  private void calibration(String set, Run run) {
    if (run.calibration().isEmpty()) {
      return;
    }
    line("");
    line(
        "Calibration: expected error over ten bins of equal weight (aim 0.05), what perfectly"
            + " honest");
    line(
        "statements as many and as sure would show by chance, and per bin stated → observed."
            + " [Reliability](pictures/%s-reliability.svg), [chord"
            + " qualities](pictures/%s-qualities.svg), [per song](pictures/%s-songs.svg).",
        set, set, set);
    line("");
    line("| facet | expected error | by chance | bins |");
    line("|---|---|---|---|");
    run.calibration()
        .forEach(
            (facet, c) -> {
              String bins =
                  String.join(
                      ", ",
                      c.bins().stream()
                          .map(
                              b ->
                                  String.format(Locale.ROOT, "%.2f→%.2f", b.stated(), b.observed()))
                          .toList());
              String chance = c.byChance() == 0 ? "-" : number(c.byChance());
              line("| %s | %s | %s | %s |", facet, number(c.expectedError()), chance, bins);
            });
  }

  private void changes(String set, Run run) {
    line("");
    line("Against the last committed run:");
    line("");
    Comparison.of(committed, set, run).forEach(l -> line("- " + l));
  }

  private void songs(String set, Run run) {
    line("");
    line("<details><summary>Song by song</summary>");
    line("");
    List<String> metrics =
        set.startsWith("space")
            ? List.of(
                "second.notesF",
                "lines.notesF",
                "space.placementError",
                "space.alternatingF",
                "echo.delayF",
                "echo.againF",
                "echo.doubleF",
                "layers.entriesExitsF",
                "texture.sweepF",
                "texture.duckingF",
                "repeats.newNotesF",
                "loudness.integratedErrorLu")
            : set.startsWith("room")
                ? List.of(
                    "room.decayRatio",
                    "room.decayTold",
                    "room.wetErrorDb",
                    "room.changesF",
                    "form.f3Trimmed")
                : List.of(
                    "beats.f",
                    "downbeats.f",
                    "key.weighted",
                    "chords.root",
                    "chords.majmin",
                    "chords.sevenths",
                    "bass.f",
                    "melody.rawPitch",
                    "melody.overall",
                    "form.f3Trimmed");
    line("| song | copy | meter | %s |", String.join(" | ", metrics));
    line("|---|---|---%s|", "|---".repeat(metrics.size()));
    for (Row row : run.rows()) {
      if (row.listener().equals("undersong")) {
        line(
            "| %s | %s | %s | %s |",
            row.id(),
            row.copy(),
            row.traits().get("meter"),
            String.join(
                " | ",
                metrics.stream()
                    .map(m -> number(row.scores().getOrDefault(m, Double.NaN)))
                    .toList()));
      }
    }
    line("");
    line("</details>");
  }

  private void missing(Run run) {
    if (!run.notes().isEmpty()) {
      line("");
      line("Missing or failed:");
      line("");
      run.notes().forEach(n -> line("- " + n));
    }
  }

  private void real(Run run) {
    heading("real", run);
    line("Real recordings; reported, not gates. Beats of the rock songs are scored at the best");
    line("metrical level too, since the phase of a tempo map can be doubtful.");
    table(run);
    missing(run);
  }

  private void ceilings(Run run) {
    heading("ceilings", run);
    line("How far humans agree on the same data, by the same metrics, and what the chord decoder");
    line("makes of the notes that were played (no names given, no lead, pulse as heard): the aim");
    line("for a chord figure is the lower of the one above and 0.98 of this one.");
    table(run);
    missing(run);
  }

  private void speed(Run run) {
    heading("speed", run);
    line("The whole program on recordings of several lengths, in a fresh process each.");
    table(run);
    missing(run);
  }

  private void table(Run run) {
    line("");
    line("| what | who | measured |");
    line("|---|---|---|");
    for (Row row : run.rows()) {
      line(
          "| %s | %s | %s |",
          row.id(),
          row.listener(),
          String.join(
              ", ",
              row.scores().entrySet().stream()
                  .map(e -> e.getKey() + " " + number(e.getValue()))
                  .toList()));
    }
  }
}
