package undersong.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import undersong.bench.charts.ChartMeasure;
import undersong.bench.data.OpenData;
import undersong.bench.peers.Aubio;
import undersong.bench.peers.Listener;
import undersong.bench.peers.Program;
import undersong.bench.peers.Trivial;
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
import undersong.bench.speed.WholeProgram;

/** Entry point of {@code ./measure}: names of sets in, {@code bench/RESULTS.md} out. */
public final class Measure {
  private static final Path CACHE =
      Path.of(System.getenv().getOrDefault("MEASURE_CACHE", ".measure-cache"));
  private static final List<Path> MEASURING_FONTS =
      List.of(
          Path.of("/usr/share/sounds/sf3/MuseScore_General.sf3"),
          Path.of("/usr/share/sounds/sf2/MuseScore_General.sf2"));
  private static final List<Path> TUNING_FONTS =
      List.of(Path.of("/usr/share/sounds/sf2/TimGM6mb.sf2"));

  private Measure() {}

  public static void main(String[] arguments) throws IOException {
    List<String> wanted = arguments.length == 0 ? List.of("quick") : List.of(arguments);
    if (wanted.get(0).equals("render")) {
      for (String set : wanted.subList(1, wanted.size())) {
        Bench bench = new Bench(List.of(), List.of());
        songs(set, bench, List.of());
      }
      return;
    }
    if (wanted.get(0).equals("charts")) {
      ChartMeasure.run(wanted.size() > 1 ? wanted.get(1) : "");
      return;
    }
    for (String set : wanted) {
      List<String> missing = new ArrayList<>();
      Bench bench = new Bench(listeners(missing), missing);
      List<Row> rows =
          switch (set) {
            case "tune", "quick", "full", "last", "space", "space-tune" -> {
              songs(set, bench, List.of("clean", "worn"));
              yield List.of();
            }
            case "real" ->
                new RealRecordings(
                        CACHE.resolve("real"),
                        bench,
                        listeners(new ArrayList<>()),
                        sofar -> Page.publish(set, bench.soFar(sofar)))
                    .measure();
            case "ceilings" -> Ceilings.measure(bench);
            case "speed" -> speed(bench);
            default ->
                throw new IllegalArgumentException(
                    "No set is called \"%s\"; there are %s, real, ceilings, speed and charts."
                        .formatted(set, SongList.sets()));
          };
      Run run = bench.soFar(rows);
      Page.publish(set, run).forEach(System.out::println);
    }
  }

  private static List<Listener> listeners(List<String> missing) {
    List<Listener> listeners = new ArrayList<>(List.of(new Program(), new Trivial()));
    if (Tool.isThere("aubiotrack")) {
      listeners.add(new Aubio());
    } else {
      missing.add("aubiotrack is missing: install Debian package aubio-tools.");
    }
    return listeners;
  }

  /** Renders what is missing, lets the copies asked for be heard, keeps the page up to date. */
  private static void songs(String set, Bench bench, List<String> copies) throws IOException {
    boolean tuning = SongList.forTuning(set);
    List<Path> fonts = tuning ? TUNING_FONTS : MEASURING_FONTS;
    Path font =
        fonts.stream()
            .filter(Files::exists)
            .findFirst()
            .orElseThrow(
                () ->
                    new OpenData.Missing(
                        "Soundfont missing: install Debian package %s."
                            .formatted(
                                tuning ? "timgm6mb-soundfont" : "musescore-general-soundfont")));
    Renderer renderer = new Renderer(CACHE.resolve(tuning ? "tune" : "bench"), font);
    Charts charts = new Charts();
    for (Song song : SongList.of(set)) {
      try {
        Renderer.Pair pair = renderer.render(song, charts.find(song.chartId()));
        if (copies.contains("clean")) {
          bench.hear("clean", pair.clean());
        }
        if (copies.contains("worn")) {
          bench.hear("worn", pair.worn());
        }
        if (!copies.isEmpty()) {
          Page.publish(set, bench.soFar(List.of()));
        }
      } catch (IOException | RuntimeException failure) {
        bench.note("%s left out: %s".formatted(song.chartId(), failure.getMessage()));
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
