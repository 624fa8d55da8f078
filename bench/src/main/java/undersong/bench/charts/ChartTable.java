package undersong.bench.charts;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import undersong.expectation.ExpectationCounts;

/** Counts the charts that may be learned from and writes the table that comes with the program. */
final class ChartTable {
  private static final Path TABLE =
      Path.of("app/src/main/resources/undersong/expectation/charts.txt");

  private ChartTable() {}

  static void write(LearnedCharts charts) throws IOException {
    ExpectationCounts counts =
        ExpectationCounts.of(charts.learned().stream().map(ChartReadings::read).toList()).pruned();
    List<String> lines =
        new ArrayList<>(List.of("# What followed what; each context counts once a song."));
    lines.addAll(heading(charts));
    lines.addAll(counts.print());
    Files.createDirectories(TABLE.getParent());
    Files.write(TABLE, lines);
  }

  static List<String> heading(LearnedCharts charts) {
    return List.of(
        "# Counted on %d chord charts by `./measure charts table`."
            .formatted(charts.learned().size()),
        "# McGill Billboard annotations 2.0: J. A. Burgoyne, J. Wild, I. Fujinaga, ISMIR 2011; CC0."
            + " Files up to %s.".formatted(LearnedCharts.LAST_LEARNED_BILLBOARD),
        "# RS200 2.1: T. de Clercq, D. Temperley, Popular Music 30(1), 2011; CC BY 4.0"
            + " (creativecommons.org/licenses/by/4.0).",
        "# Songs up to %s as D. Temperley analyzed them, changed into counts."
            .formatted(LearnedCharts.LAST_LEARNED_RS200),
        "# Left out: every later song, and %s, whose songs stand in the data twice."
            .formatted(String.join(", ", LearnedCharts.RECORDED_TWICE.stream().sorted().toList())));
  }
}
