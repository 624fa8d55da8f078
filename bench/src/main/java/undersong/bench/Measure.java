package undersong.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import undersong.bench.charts.ChartMeasure;
import undersong.bench.data.OpenData;
import undersong.bench.desk.DeskMeasure;
import undersong.bench.lesson.HeardNotation;
import undersong.bench.lesson.NotationMeasure;
import undersong.bench.peers.Aubio;
import undersong.bench.peers.Classical;
import undersong.bench.peers.FfmpegMeter;
import undersong.bench.peers.Listener;
import undersong.bench.peers.Program;
import undersong.bench.peers.Trivial;
import undersong.bench.plant.PlantedMain;
import undersong.bench.plant.SketchSet;
import undersong.bench.render.Charts;
import undersong.bench.render.Renderer;
import undersong.bench.render.Song;
import undersong.bench.render.SongList;
import undersong.bench.render.Tool;
import undersong.bench.report.Bench;
import undersong.bench.report.Ceilings;
import undersong.bench.report.Page;
import undersong.bench.report.RealRecordings;
import undersong.bench.report.Row;
import undersong.bench.report.Run;
import undersong.bench.shelf.ShelfMeasure;
import undersong.bench.speed.WholeProgram;

/** Entry point of {@code ./measure}: names of sets in, {@code bench/RESULTS.md} out. */
public final class Measure {
  private static final Path CACHE =
      Path.of(System.getenv().getOrDefault("MEASURE_CACHE", ".measure-cache"));
  private static final Path SOUNDFONTS =
      Path.of(System.getProperty("undersong.bench.soundfonts", "/usr/share/sounds"));
  private static final List<Path> MEASURING_FONTS =
      List.of(
          SOUNDFONTS.resolve("sf3/MuseScore_General.sf3"),
          SOUNDFONTS.resolve("sf2/MuseScore_General.sf2"));
  private static final List<Path> TUNING_FONTS = List.of(SOUNDFONTS.resolve("sf2/TimGM6mb.sf2"));

  private Measure() {}

  public static void main(String[] arguments) throws IOException {
    List<String> wanted = new ArrayList<>(List.of(arguments));
    if (wanted.remove("--fault")) {
      System.setProperty(Program.FAULT_PROPERTY, "1");
    }
    if (!wanted.isEmpty() && wanted.get(0).equals("charts")) {
      ChartMeasure.run(wanted.size() > 1 ? wanted.get(1) : "");
      return;
    }
    if (!wanted.isEmpty() && wanted.get(0).startsWith("planted")) {
      planted(wanted.get(0));
      return;
    }
    if (!wanted.isEmpty() && wanted.get(0).equals("sketch")) {
      long firstSeed = wanted.size() > 1 ? Long.parseLong(wanted.get(1)) : 0;
      SketchSet.measure(CACHE, firstSeed, LocalDate.now(ZoneOffset.UTC).toString(), Bench.commit());
      return;
    }
    if (!wanted.isEmpty() && wanted.get(0).equals("lesson")) {
      lesson(wanted.size() > 1 ? wanted.subList(1, wanted.size()) : List.of("tune", "quick"));
      return;
    }
    if (!wanted.isEmpty() && wanted.get(0).equals("desk")) {
      DeskMeasure.measure(LocalDate.now(ZoneOffset.UTC).toString(), Bench.commit());
      return;
    }
    if (!wanted.isEmpty() && wanted.get(0).equals("shelf")) {
      shelf(wanted);
      return;
    }
    boolean alone = wanted.remove("--alone");
    boolean renderOnly = wanted.remove("render");
    for (String set : wanted.isEmpty() ? List.of("quick") : wanted) {
      try {
        if (renderOnly) {
          songs(set, new Bench(List.of(), new ArrayList<>()), List.of());
        } else {
          measure(set, alone);
        }
      } catch (OpenData.Missing missing) {
        System.out.println(set + " not measured: " + missing.getMessage());
      }
    }
  }

  /**
   * @param sets of songs whose heard tunes are written down; what is missing is rendered
   */
  private static void lesson(List<String> sets) throws IOException {
    StringBuilder rows = new StringBuilder();
    for (String set : sets) {
      HeardNotation heard = new HeardNotation(set);
      renderings(
          set,
          (song, pair) -> heard.hear(pair.clean()),
          (song, failure) -> System.out.printf("%s left out: %s%n", song.chartId(), failure));
      rows.append(heard.rows());
    }
    try {
      NotationMeasure.measure(
          rows.toString(), LocalDate.now(ZoneOffset.UTC).toString(), Bench.commit());
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
    }
  }

  /** Songs, kills and a server may be named: {@code shelf 1000 5 postgresql://localhost/empty}. */
  private static void shelf(List<String> wanted) throws IOException {
    try {
      ShelfMeasure.measure(
          wanted.size() > 1 ? Integer.parseInt(wanted.get(1)) : 10_000,
          wanted.size() > 2 ? Integer.parseInt(wanted.get(2)) : 100,
          wanted.size() > 3 ? Optional.of(wanted.get(3)) : Optional.empty(),
          LocalDate.now(ZoneOffset.UTC).toString(),
          Bench.commit());
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
    }
  }

  private static void planted(String what) throws IOException {
    Path cache = CACHE.resolve("planted");
    switch (what) {
      case "planted" -> PlantedMain.measure(cache, font(false));
      case "planted-tune" -> PlantedMain.tune(cache, font(true));
      case "planted-fit" -> PlantedMain.fit(cache, font(true));
      default ->
          throw new IllegalArgumentException(
              "No set is called \"%s\"; there are planted, planted-tune and planted-fit."
                  .formatted(what));
    }
  }

  private static void measure(String set, boolean alone) throws IOException {
    List<String> missing = new ArrayList<>();
    Bench bench = new Bench(listeners(alone, missing), missing);
    missing.forEach(System.out::println);
    List<Row> rows =
        switch (set) {
          case "real" ->
              new RealRecordings(
                      CACHE.resolve("real"),
                      bench,
                      listeners(alone, new ArrayList<>()),
                      sofar -> Page.publish(set, bench.soFar(sofar)))
                  .measure();
          case "ceilings" ->
              Ceilings.measure(bench, () -> new Renderer(CACHE.resolve("bench"), font(false)));
          case "speed" -> speed(bench);
          default -> {
            if (!SongList.sets().contains(set)) {
              throw new IllegalArgumentException(
                  "No set is called \"%s\"; there are %s, real, ceilings, speed and charts."
                      .formatted(set, SongList.sets()));
            }
            songs(set, bench, List.of("clean", "worn"));
            yield List.of();
          }
        };
    Run run = bench.soFar(rows);
    Page.publish(set, run).forEach(System.out::println);
  }

  /**
   * @param alone leave out the peers that take long
   */
  private static List<Listener> listeners(boolean alone, List<String> missing) {
    List<Listener> listeners = new ArrayList<>(List.of(new Program(), new Trivial()));
    if (!alone) {
      listeners.add(new Classical());
    }
    if (!alone && Tool.isThere("aubiotrack")) {
      listeners.add(new Aubio());
    } else if (!alone) {
      missing.add("aubiotrack is missing: install Debian package aubio-tools.");
    }
    if (Tool.isThere("ffmpeg")) {
      listeners.add(new FfmpegMeter());
    } else {
      missing.add("ffmpeg is missing: install Debian package ffmpeg.");
    }
    return listeners;
  }

  private static Path font(boolean tuning) {
    List<Path> fonts = tuning ? TUNING_FONTS : MEASURING_FONTS;
    return fonts.stream()
        .filter(Files::exists)
        .findFirst()
        .orElseThrow(
            () ->
                new OpenData.Missing(
                    "Soundfont missing: install Debian package %s."
                        .formatted(tuning ? "timgm6mb-soundfont" : "musescore-general-soundfont")));
  }

  /** Renders what is missing, lets the copies asked for be heard, keeps the page up to date. */
  private static void songs(String set, Bench bench, List<String> copies) throws IOException {
    renderings(
        set,
        (song, pair) -> {
          if (copies.contains("clean")) {
            bench.hear("clean", pair.clean());
          }
          if (copies.contains("worn")) {
            bench.hear("worn", pair.worn());
          }
          if (!copies.isEmpty()) {
            Page.publish(set, bench.soFar(List.of()));
          }
        },
        (song, failure) -> bench.leaveOut(song.chartId(), failure));
  }

  /** What is done with the renderings of a song. */
  @FunctionalInterface
  private interface Listening {
    void to(Song song, Renderer.Pair pair) throws IOException;
  }

  private static void renderings(
      String set, Listening listening, BiConsumer<Song, Exception> failed) throws IOException {
    boolean tuning = SongList.forTuning(set);
    Renderer renderer = new Renderer(CACHE.resolve(tuning ? "tune" : "bench"), font(tuning));
    Charts charts = new Charts();
    for (Song song : SongList.of(set)) {
      try {
        listening.to(song, renderer.render(song, charts.find(song.chartId())));
      } catch (IOException | RuntimeException failure) {
        failed.accept(song, failure);
      }
    }
  }

  private static List<Row> speed(Bench bench) throws IOException {
    Song song = SongList.of("quick").get(0);
    songs("quick", bench, List.of());
    int longest = Integer.getInteger("undersong.bench.longestMinutes", 60);
    return WholeProgram.measure(
        CACHE.resolve("bench").resolve(song.chartId()).resolve("clean.flac"),
        CACHE.resolve("speed"),
        longest);
  }
}
