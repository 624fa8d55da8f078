package undersong.bench.charts;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import undersong.technique.Technique;

/**
 * Puts counted shares of songs into the table that ranking reads; what charts cannot show keeps its
 * estimate.
 */
final class CommonnessTable {
  private static final Path TABLE =
      Path.of("app/src/main/resources/undersong/technique/commonness.txt");

  private CommonnessTable() {}

  static void write(LearnedCharts charts) throws IOException {
    int songs = charts.learned().size();
    Map<Technique, FiringRates.Rate> rates = FiringRates.over(charts.learned());
    List<String> lines = new ArrayList<>();
    lines.add("# Share of songs in which a technique is found.");
    lines.addAll(ChartTable.heading(charts));
    rates.forEach(
        (technique, rate) ->
            lines.add(
                // Half a song more, so that nothing is impossible.
                String.format(
                    Locale.ROOT, "%s %.3f", technique.id(), (rate.songs() + 0.5) / (songs + 1))));
    lines.add("# Not to be seen on charts: our estimates from common practice, no source.");
    for (String line : Files.readAllLines(TABLE)) {
      boolean estimated =
          !line.isBlank()
              && !line.startsWith("#")
              && !rates.containsKey(Technique.named(line.substring(0, line.indexOf(' '))));
      if (estimated) {
        lines.add(line);
      }
    }
    Files.write(TABLE, lines);
  }
}
