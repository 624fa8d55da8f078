package undersong.bench.charts;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.bench.data.BillboardReader;
import undersong.bench.data.Chart;
import undersong.bench.data.NumeralSong;
import undersong.bench.data.OpenData;
import undersong.bench.data.RockNumeralReader;

/**
 * Which open charts may be learned from, and which are only measured on. Every song that the bench
 * lets the program hear (sets full, quick, last) is among the measured ones.
 *
 * @param learned the first 300 Billboard files and the first 60 of RS200 (as D. Temperley analyzed
 *     them), without {@link #RECORDED_TWICE}
 * @param measured the other charts
 */
record LearnedCharts(List<Chart> learned, List<Chart> measured) {
  /** Songs that stand in the data a second time, here or among the measured ones. */
  static final Set<String> RECORDED_TWICE =
      Set.of("billboard-0119", "billboard-0587", "billboard-0692", "rs200-015", "rs200-035");

  static final String LAST_LEARNED_BILLBOARD = "billboard-0970";
  static final String LAST_LEARNED_RS200 = "rs200-060";

  static LearnedCharts read() throws IOException {
    List<Chart> learned = new ArrayList<>();
    List<Chart> measured = new ArrayList<>();
    List<Chart> billboard = BillboardReader.readAll(OpenData.folder("mcgill-billboard")).read();
    List<Chart> rs200 =
        RockNumeralReader.readAll(OpenData.folder("rock-corpus-rs200")).stream()
            .map(NumeralSong::chart)
            .toList();
    split(billboard, LAST_LEARNED_BILLBOARD, learned, measured);
    split(rs200, LAST_LEARNED_RS200, learned, measured);
    return new LearnedCharts(learned, measured);
  }

  private static void split(
      List<Chart> charts, String last, List<Chart> learned, List<Chart> measured) {
    for (Chart chart : charts) {
      if (chart.id().compareTo(last) > 0) {
        measured.add(chart);
      } else if (!RECORDED_TWICE.contains(chart.id())) {
        learned.add(chart);
      }
    }
  }
}
