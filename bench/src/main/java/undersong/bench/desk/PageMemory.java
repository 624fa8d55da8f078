package undersong.bench.desk;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import undersong.browser.PageBrowser;

/**
 * What a page holds: its scripts' heap, and what its process has to itself, as the kernel counts
 * it.
 */
record PageMemory(double heapMb, double processMb) {
  private static final double BYTES_PER_MB = 1e6;

  /** Of the page that is open, once nothing is held that nobody needs. */
  static PageMemory of(PageBrowser browser) {
    browser.tools("HeapProfiler.collectGarbage");
    double heap = ((Number) browser.run("return performance.memory.usedJSHeapSize")).doubleValue();
    double process =
        browser
            .browserProcess()
            .descendants()
            .filter(one -> runsPages(one.pid()))
            .mapToDouble(one -> privateKb(one.pid()))
            .max()
            .orElse(Double.NaN);
    return new PageMemory(heap / BYTES_PER_MB, process * 1024 / BYTES_PER_MB);
  }

  private static boolean runsPages(long pid) {
    try {
      return Files.readString(Path.of("/proc", Long.toString(pid), "cmdline"))
          .contains("--type=renderer");
    } catch (IOException gone) {
      return false;
    }
  }

  private static double privateKb(long pid) {
    try {
      return Files.readAllLines(Path.of("/proc", Long.toString(pid), "status")).stream()
          .filter(line -> line.startsWith("RssAnon"))
          .mapToDouble(line -> Double.parseDouble(line.replaceAll("\\D", "")))
          .sum();
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
