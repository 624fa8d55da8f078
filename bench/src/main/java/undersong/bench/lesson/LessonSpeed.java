package undersong.bench.lesson;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import undersong.bench.peers.Program;
import undersong.lesson.Lesson;
import undersong.notation.NotationSettings;
import undersong.render.DemoRenderer;
import undersong.render.DemoSongs;
import undersong.render.WavFile;
import undersong.study.Study;

/**
 * How long a lesson of ten findings takes and how large it is: by a program that has just started,
 * as the command line writes it, and by one that runs already, as the desk does.
 */
final class LessonSpeed {
  private static final int FINDINGS = 10;
  private static final int RUNS = 5;
  private static final String SONG = "count-the-ferries";

  private LessonSpeed() {}

  /** A section of the page, in Markdown. */
  static String measured() throws IOException, InterruptedException {
    Path folder = Files.createTempDirectory("undersong-lesson");
    try {
      return measured(folder);
    } finally {
      Program.delete(folder);
    }
  }

  private static String measured(Path folder) throws IOException, InterruptedException {
    Path recording = folder.resolve("song.wav");
    Path shelf = folder.resolve("shelf.db");
    WavFile.write(DemoRenderer.render(DemoSongs.named(SONG)), recording);
    List<Double> inside = new ArrayList<>();
    int items;
    int bytes = 0;
    int page = 0;
    try (Study study = Study.on(shelf)) {
      long song = study.study(recording).song().id();
      Lesson lesson = study.lessons().draft(song, FINDINGS, NotationSettings.DEFAULTS);
      items = lesson.items().size();
      for (int i = 0; i < RUNS; i++) {
        long from = System.nanoTime();
        Map<String, byte[]> files = study.lessons().files(lesson);
        inside.add((System.nanoTime() - from) / 1e9);
        bytes = files.values().stream().mapToInt(file -> file.length).sum();
        page = files.get("lesson.html").length;
      }
    }
    List<Double> whole = new ArrayList<>();
    List<Double> processor = new ArrayList<>();
    for (int i = 0; i < RUNS; i++) {
      long from = System.nanoTime();
      Process program = started(shelf, folder.resolve("lesson"));
      Duration worked = Duration.ZERO;
      while (program.isAlive()) { // a process that ended no longer tells what it took
        worked = program.info().totalCpuDuration().orElse(worked);
        Thread.sleep(20);
      }
      if (program.exitValue() != 0) {
        throw new IOException("The lesson was not written (exit " + program.exitValue() + ").");
      }
      whole.add((System.nanoTime() - from) / 1e9);
      processor.add(worked.toMillis() / 1e3);
    }
    return String.format(
        Locale.ROOT,
        """

        ## Written out

        A demo song's lesson of %d findings, %d times each. By a program that has just started (without PDF): median %.1f s, of which a processor worked
        %.1f s (two processors; a program that starts compiles on both). By one that runs, as the desk does: median %.2f s. Aim: 3 s.
        The page has %.2f MB, all files %.2f MB, no sound among them. Aim: 2 MB. Load by everything that ran on the machine: %.1f.
        """,
        items,
        RUNS,
        median(whole),
        median(processor),
        median(inside),
        page / 1e6,
        bytes / 1e6,
        ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage());
  }

  private static Process started(Path shelf, Path to) throws IOException {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx1400m",
            "-XX:TieredStopAtLevel=1",
            "-XX:+UseSerialGC",
            "-Djava.awt.headless=true",
            "-cp",
            System.getProperty("java.class.path"),
            "undersong.cli.Main",
            "lesson",
            "1",
            "--items",
            String.valueOf(FINDINGS),
            "--to",
            to.toString(),
            "--shelf",
            shelf.toString())
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  private static double median(List<Double> values) {
    return values.stream().sorted().skip(values.size() / 2).findFirst().orElseThrow();
  }
}
