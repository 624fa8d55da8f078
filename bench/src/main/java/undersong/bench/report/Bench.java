package undersong.bench.report;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import undersong.bench.data.OpenData;
import undersong.bench.metrics.Calibration;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.EchoMetrics;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.Overlap;
import undersong.bench.peers.FfmpegMeter;
import undersong.bench.peers.Heard;
import undersong.bench.peers.Listener;
import undersong.bench.peers.Program;
import undersong.bench.render.Renderer;
import undersong.bench.render.Tool;
import undersong.bench.render.Truth;

/** Lets every listener hear every recording of a set and keeps the score. */
public final class Bench {
  private final List<Listener> listeners;
  private final List<Row> rows = new ArrayList<>();
  private final List<String> notes;
  private final Map<String, List<String>> leftOut = new LinkedHashMap<>();
  private final Map<String, Statements> statements = new LinkedHashMap<>();
  private final Map<String, Map<String, Double>> confusion = new TreeMap<>();
  private final List<EchoMetrics.Told> told = new ArrayList<>();
  private final String commit = commit();
  private final long start = System.nanoTime();

  /**
   * @param notes what is known to be missing before the run
   */
  public Bench(List<Listener> listeners, List<String> notes) {
    this.listeners = listeners;
    this.notes = new ArrayList<>(notes);
  }

  public void note(String line) {
    System.out.println(line);
    notes.add(line);
  }

  /** Notes why something is not in the run; whatever has the same cause shares one line. */
  public void leaveOut(String what, Exception cause) {
    String why = cause.getMessage();
    if (!leftOut.containsKey(why)) {
      System.out.printf("%s left out: %s%n", what, why);
    }
    leftOut.computeIfAbsent(why, w -> new ArrayList<>()).add(what);
  }

  /**
   * @param copy "clean", "worn" or "real"
   */
  public void hear(String copy, Renderer.Rendering rendering) {
    Truth truth = rendering.truth();
    Map<String, Heard> all = new LinkedHashMap<>();
    for (Listener listener : listeners.stream().filter(l -> l.hears(copy)).toList()) {
      try {
        all.put(listener.name(), listener.hear(rendering.audio(), truth));
      } catch (IOException | RuntimeException failure) {
        leaveOut("%s (%s) by %s".formatted(truth.id(), copy, listener.name()), failure);
      }
    }
    Optional<Heard.Loudness> metered =
        Optional.ofNullable(all.get(FfmpegMeter.NAME)).flatMap(Heard::loudness);
    all.forEach((listener, heard) -> add(copy, listener, truth, heard, metered));
  }

  private void add(
      String copy, String listener, Truth truth, Heard heard, Optional<Heard.Loudness> metered) {
    Map<String, Double> scores = Scorer.score(truth, heard);
    scores.putAll(Scorer.loudness(metered, heard));
    if (copy.equals("worn")) {
      // the true width is that of the clean mix; wear narrows it by an unknown amount
      scores.remove(ProductionScorer.WIDTH_ERROR);
    }
    rows.add(new Row(truth.id(), copy, listener, traits(truth), scores));
    System.out.printf(
        "%-18s %-5s %-9s beats %s  key %s  majmin %s  bass %s  melody %s%n",
        truth.id(),
        copy,
        listener,
        shown(scores, "beats.f"),
        shown(scores, "key.weighted"),
        shown(scores, "chords.majmin"),
        shown(scores, "bass.f"),
        shown(scores, "melody.rawPitch"));
    if (listener.equals("undersong")) {
      heard
          .produced()
          .ifPresent(
              p ->
                  told.addAll(
                      EchoMetrics.told(ProductionScorer.copiesDone(truth.staging()), p.copies())));
      statements.computeIfAbsent(copy, c -> new Statements()).add(truth, heard);
      heard
          .tonality()
          .map(Heard.Tonality::chords)
          .ifPresent(
              chords -> {
                for (Overlap.Piece<ChordCode> piece :
                    Overlap.pieces(Scorer.chordTruth(truth), chords, ChordCode.NONE)) {
                  confusion
                      .computeIfAbsent(quality(piece.reference()), q -> new TreeMap<>())
                      .merge(
                          piece.reference().root() == piece.estimated().root()
                              ? quality(piece.estimated())
                              : "other root",
                          piece.lengthSeconds(),
                          Double::sum);
                }
              });
    }
  }

  private static String shown(Map<String, Double> scores, String metric) {
    Double value = scores.get(metric);
    return value == null ? "  - " : "%.2f".formatted(value);
  }

  private static String quality(ChordCode chord) {
    if (!chord.sounds()) {
      return chord.known() ? "N" : "X";
    }
    String label = HarteChord.print(ChordCode.of(0, chord.bits(), chord.bass()));
    String quality = label.substring(2).replaceAll("/.*", "");
    return quality.startsWith("1(") ? "others" : quality;
  }

  private static Map<String, String> traits(Truth truth) {
    return Map.of(
        "meter", truth.meter(),
        "swing", truth.swingRatio() > 1.2 ? "yes" : "no",
        "drift", truth.drifting() ? "yes" : "no",
        "lead", truth.melody().isEmpty() ? "unknown" : truth.sung() ? "sung" : "played");
  }

  /**
   * The run so far.
   *
   * @param more rows that were scored elsewhere
   */
  public Run soFar(List<Row> more) {
    List<Row> all = new ArrayList<>(rows);
    all.addAll(more);
    Map<String, Calibration> calibrations = new LinkedHashMap<>();
    statements.forEach(
        (copy, said) ->
            said.calibrations()
                .forEach(
                    (facet, calibration) -> {
                      if (!calibration.bins().isEmpty()) {
                        calibrations.put(copy + " " + facet, calibration);
                      }
                    }));
    List<String> missing = new ArrayList<>(notes);
    leftOut.forEach(
        (why, what) -> missing.add("Left out: " + String.join(", ", what) + ". " + why));
    String fault = System.getProperty(Program.FAULT_PROPERTY, "");
    return new Run(
        Instant.now().truncatedTo(ChronoUnit.SECONDS).toString(),
        commit,
        machine(),
        fault.isEmpty() ? "" : "chords moved by " + fault + " semitones",
        (System.nanoTime() - start) / 1e9,
        all,
        calibrations,
        confusion,
        copies(),
        missing);
  }

  /** How often each true kind of copy was told as which, by words. */
  private Map<String, Map<String, Long>> copies() {
    Map<String, Map<String, Long>> copies = new TreeMap<>();
    EchoMetrics.confusion(told)
        .forEach(
            (truth, row) ->
                row.forEach(
                    (said, count) ->
                        copies
                            .computeIfAbsent(words(truth), k -> new TreeMap<>())
                            .put(words(said), count)));
    return copies;
  }

  private static String words(EchoMetrics.Kind kind) {
    return kind.name().toLowerCase(java.util.Locale.ROOT);
  }

  /** The commit measured, short; "unknown" outside a checkout. */
  public static String commit() {
    try {
      String changed = Tool.run("git", "status", "--porcelain", "--", "app").strip();
      return Tool.run("git", "rev-parse", "--short", "HEAD").strip()
          + (changed.isEmpty() ? "" : " with changes");
    } catch (IOException | OpenData.Missing noRepository) {
      return "unknown";
    }
  }

  private static String machine() {
    double load = ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
    return "%d processors (load %.0f), %s %s, Java %s"
        .formatted(
            Runtime.getRuntime().availableProcessors(),
            load,
            System.getProperty("os.name"),
            System.getProperty("os.arch"),
            Runtime.version().feature());
  }

  static Path home() {
    return Path.of("bench");
  }
}
