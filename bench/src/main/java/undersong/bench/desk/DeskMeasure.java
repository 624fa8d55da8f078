package undersong.bench.desk;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import undersong.bench.metrics.Statistics;
import undersong.bench.peers.Program;
import undersong.bench.speed.Medley;
import undersong.browser.PageBrowser;
import undersong.study.Study;

/**
 * Starts the desk on a shelf with a long song and a very long one, drives a browser, and a class:
 * {@code bench/DESK.md}.
 */
public final class DeskMeasure {
  private static final Path PAGE = Path.of("bench/DESK.md");
  private static final int LOADS = 20;
  private static final int CORRECTIONS = 60;
  private static final int LISTENERS = 20;
  private static final int CHUNKS_EACH = 12;
  private static final double SLOW_FRAME_MS = 50;
  private static final long PLAYED_MS = 20_000;
  private static final String PLAYING =
      "document.querySelector('button.main')?.getAttribute('aria-pressed') === 'true'";

  private final StringBuilder table =
      new StringBuilder("| what | measured | aim |\n| --- | --- | --- |\n");

  private DeskMeasure() {}

  public static void measure(String date, String commit) throws IOException {
    if (!PageBrowser.isThere()) {
      System.out.println(
          "desk not measured: it wants Debian's chromium and chromium-driver, and a program built"
              + " with its page (Node 20 or newer).");
      return;
    }
    Path folder = Files.createTempDirectory("undersong-desk");
    try {
      measure(folder, date, commit);
    } finally {
      Program.delete(folder);
    }
  }

  private static void measure(Path folder, String date, String commit) throws IOException {
    Path shelf = folder.resolve("shelf.db");
    long four = studied(shelf, folder, 240);
    long ten = studied(shelf, folder, 600);
    DeskMeasure measure = new DeskMeasure();
    try (RunningDesk desk = RunningDesk.on(shelf)) {
      measure.atThePage(desk, four, ten);
      measure.together(ClassAtOnce.listen(desk, four, LISTENERS, CHUNKS_EACH));
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      return;
    }
    Files.writeString(PAGE, page(measure.table.toString(), date, commit));
    System.out.println(Files.readString(PAGE));
  }

  private static long studied(Path shelf, Path folder, int seconds) throws IOException {
    Path file = Medley.write(folder.resolve(seconds + " seconds.wav"), seconds);
    try (Study study = Study.on(shelf)) {
      return study.study(file).song().id();
    }
  }

  private void atThePage(RunningDesk desk, long four, long ten) throws InterruptedException {
    try (PageBrowser browser = PageBrowser.open()) {
      PageTimes times = new PageTimes(browser, desk);
      line("the list of songs, right after the program started, ms", "%.0f", times.shelf(), "1000");
      PageTimes.Loaded first = times.song(four);
      line("first rows of the four-minute song, opened first, ms", "%.0f", first.musicMs(), "1000");
      line("its page with all findings, opened first, ms", "%.0f", first.wholeMs(), "2000");
      List<Double> shelves = new ArrayList<>();
      List<PageTimes.Loaded> loads = new ArrayList<>();
      for (int i = 0; i < LOADS; i++) {
        shelves.add(times.shelf());
        loads.add(times.song(four));
      }
      spread("first useful paint: the list of songs, ms", shelves, "1000");
      spread(
          "first useful paint: a song's first rows, ms",
          loads.stream().map(PageTimes.Loaded::musicMs).toList(),
          "1000");
      spread(
          "full page of a four-minute song, ms",
          loads.stream().map(PageTimes.Loaded::wholeMs).toList(),
          "2000");
      PageTimes.Corrected corrected = times.corrections(four, CORRECTIONS);
      spread("a chord said, to the rows redrawn, ms", corrected.saidMs(), "p95 250");
      spread("a step undone, to the rows redrawn, ms", corrected.undoneMs(), "p95 250");
      spread("a step undone, to the findings redrawn too, ms", corrected.foundMs(), "");
      List<Double> frames = times.scrolling(ten);
      spread("a frame while the ten-minute song scrolls, ms", frames, "none over 50");
      line(
          "frames over 50 ms, of %d".formatted(frames.size()),
          "%.0f",
          (double) frames.stream().filter(length -> length > SLOW_FRAME_MS).count(),
          "0");
      browser.run("document.activeElement?.blur()");
      browser.press(" ");
      Thread.sleep(PLAYED_MS);
      if (!Boolean.TRUE.equals(browser.run("return " + PLAYING))) {
        throw new IllegalStateException("The page did not play when asked to by the space key.");
      }
      PageMemory memory = PageMemory.of(browser);
      line(
          "page of the ten-minute song after 20 s of playing: heap of scripts, MB",
          "%.0f",
          memory.heapMb(),
          "");
      line("its whole process, MB", "%.0f", memory.processMb(), "300");
    }
  }

  private void together(ClassAtOnce.Outcome outcome) {
    spread("%d at once: the song's page, ms".formatted(LISTENERS), outcome.pageMs(), "");
    spread("a chunk of sound (3.0 s), ms", outcome.chunkMs(), "before it is played: 2970");
    spread("a time-frequency picture, ms", outcome.pictureMs(), "");
    line("failed", "%.0f", outcome.failures(), "0");
  }

  private void line(String what, String format, double value, String aim) {
    String measured = String.format(Locale.ROOT, format, value);
    table.append("| %s | %s | %s |%n".formatted(what, measured, aim));
  }

  private void spread(String what, List<Double> values, String aim) {
    double[] all = values.stream().mapToDouble(Double::doubleValue).toArray();
    table.append(
        String.format(
            Locale.ROOT,
            "| %s | median %.0f, p95 %.0f, longest %.0f (%d) | %s |%n",
            what,
            Statistics.median(all),
            Statistics.quantile(all, 0.95),
            Statistics.quantile(all, 1),
            all.length,
            aim));
  }

  private static String page(String table, String date, String commit) {
    double load = ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
    return String.format(
        Locale.ROOT,
        """
        # The desk

        Made by `./measure desk` (%s, commit %s, %d processors; load by everything that ran on the machine, the browser included: %.1f). The demo songs end to end,
        four and ten minutes of them, on a new shelf; the program in a process of its own; Debian's Chromium without a window and
        without a graphics card, 1440 by 1000 pixels, drawing on the same processors. Times of the page are taken in the page, from the address to the
        frame that shows what is named; those of a correction from the press to the frame after the rows, with all their chords and numerals, were
        drawn anew; findings, which follow, are timed apart. A chord is said when all has come to rest, and undone 60 to 420 ms later: before, while or after its findings are looked for.
        The class are %d clients, each reading the page, playing chunk by chunk from another place, opening pictures.

        %s\
        """,
        date,
        commit,
        Runtime.getRuntime().availableProcessors(),
        load,
        LISTENERS,
        table);
  }
}
