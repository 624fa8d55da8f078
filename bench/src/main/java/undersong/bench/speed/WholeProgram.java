package undersong.bench.speed;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import undersong.bench.render.Tool;
import undersong.bench.report.Row;
import undersong.study.Study;

/** Studies one recording and prints seconds and peak memory; run by itself for each length. */
public final class WholeProgram {
  private static final int[] MINUTES = {1, 4, 16, 60};

  private WholeProgram() {}

  public static void main(String[] arguments) throws IOException {
    Path folder = Files.createTempDirectory("shelf");
    long before = System.nanoTime();
    try (Study study = Study.on(folder.resolve("shelf.db"))) {
      study.study(Path.of(arguments[0]));
    }
    System.out.printf(
        java.util.Locale.ROOT,
        "measured %.2f %.0f%n",
        (System.nanoTime() - before) / 1e9,
        peakMegabytes());
  }

  private static double peakMegabytes() throws IOException {
    return peakMegabytes(Path.of("/proc/self/status"));
  }

  /** The largest memory a process has held, as the kernel counts it; NaN where it does not tell. */
  private static double peakMegabytes(Path status) throws IOException {
    if (!Files.exists(status)) {
      return Double.NaN;
    }
    return Files.readAllLines(status).stream()
        .filter(l -> l.startsWith("VmHWM"))
        .mapToDouble(l -> Double.parseDouble(l.replaceAll("\\D", "")) / 1024)
        .findFirst()
        .orElse(Double.NaN);
  }

  /**
   * One row per length, and for scale FFmpeg's loudness meter and aubio's beats on the same file.
   *
   * @param song a rendering that is repeated until it is long enough
   */
  public static List<Row> measure(Path song, Path cache, int longestMinutes) throws IOException {
    Files.createDirectories(cache);
    List<Row> rows = new ArrayList<>();
    for (int minutes : MINUTES) {
      if (minutes > longestMinutes) {
        continue;
      }
      Path file = cache.resolve(minutes + "-minutes.flac");
      if (!Files.exists(file)) {
        Tool.run(
            "ffmpeg",
            "-y",
            "-v",
            "error",
            "-stream_loop",
            "-1",
            "-i",
            song.toString(),
            "-t",
            Integer.toString(60 * minutes),
            file.toString());
      }
      Row program = row(minutes, "undersong", program(file));
      Row meter =
          row(
              minutes,
              "ffmpeg ebur128",
              timed(
                  minutes,
                  "ffmpeg",
                  "-v",
                  "error",
                  "-i",
                  file.toString(),
                  "-af",
                  "ebur128",
                  "-f",
                  "null",
                  "-"));
      rows.addAll(List.of(program, meter, ratio(minutes, program, meter)));
      if (minutes <= 16 && Tool.isThere("aubiotrack")) {
        Row beats = row(minutes, "aubiotrack", timed(minutes, "aubiotrack", file.toString()));
        rows.addAll(List.of(beats, ratio(minutes, program, beats)));
      }
    }
    return rows;
  }

  private static Row row(int minutes, String who, Map<String, Double> scores) {
    System.out.println(minutes + " min " + who + " " + scores);
    return new Row(minutes + " min", "real", who, Map.of(), scores);
  }

  private static Map<String, Double> program(Path file) throws IOException {
    String launcher = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    ProcessBuilder builder =
        new ProcessBuilder(
            launcher,
            "-Xmx1g",
            "-cp",
            System.getProperty("java.class.path"),
            WholeProgram.class.getName(),
            file.toString());
    Process process = builder.redirectErrorStream(true).start();
    process.getOutputStream().close();
    String printed =
        new String(
            process.getInputStream().readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
    String measured =
        printed
            .lines()
            .filter(l -> l.startsWith("measured"))
            .findFirst()
            .orElseThrow(() -> new IOException("The program failed: " + printed));
    String[] numbers = measured.split(" ");
    Map<String, Double> scores = new LinkedHashMap<>();
    scores.put("seconds", Double.valueOf(numbers[1]));
    scores.put("peak memory MB", Double.valueOf(numbers[2]));
    return scores;
  }

  private static Map<String, Double> timed(int minutes, String... command) throws IOException {
    long before = System.nanoTime();
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    Path status = Path.of("/proc", Long.toString(process.pid()), "status");
    double peak = Double.NaN;
    try {
      while (!process.waitFor(10, TimeUnit.MILLISECONDS)) {
        peak = latest(status, peak);
      }
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      throw new IOException("Stopped while waiting for " + command[0], stopped);
    }
    double seconds = (System.nanoTime() - before) / 1e9;
    if (process.exitValue() != 0) {
      throw new IOException("%s ended with code %d".formatted(command[0], process.exitValue()));
    }
    Map<String, Double> scores = new LinkedHashMap<>();
    scores.put("seconds", seconds);
    scores.put("time over length", seconds / (60 * minutes));
    scores.put("peak memory MB", peak);
    return scores;
  }

  /** The peak so far; the one before where the process has just ended. */
  private static double latest(Path status, double before) {
    try {
      double now = peakMegabytes(status);
      return Double.isNaN(now) ? before : now;
    } catch (IOException ended) {
      return before;
    }
  }

  /** The program's row over a tool's: how many times the time and the memory. */
  private static Row ratio(int minutes, Row program, Row tool) {
    Map<String, Double> ratios = new LinkedHashMap<>();
    for (String cost : List.of("seconds", "peak memory MB")) {
      ratios.put(cost, program.scores().get(cost) / tool.scores().get(cost));
    }
    return row(minutes, "undersong over " + tool.listener(), ratios);
  }
}
