package undersong.bench.charts;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfEnvironmentVariable;
import undersong.bench.data.BillboardReader;
import undersong.bench.data.Chart;
import undersong.bench.data.OpenData;

class KeysFromChordsTest {
  /**
   * McGill Billboard annotations (CC0) that nothing was counted on: their annotators' tonic against
   * the one told from their chords, bars and sections.
   */
  @Test
  @EnabledIfEnvironmentVariable(named = "UNDERSONG_DATA", matches = ".+")
  void tellsTheTonicOfSongsItWasNotCountedOn() throws IOException {
    List<Chart> charts =
        BillboardReader.readAll(OpenData.folder("mcgill-billboard")).read().stream()
            .filter(chart -> chart.id().compareTo(LearnedCharts.LAST_LEARNED_BILLBOARD) > 0)
            .toList();
    KeysFromChords told = KeysFromChords.over(charts);
    assertThat(told.songs()).isGreaterThanOrEqualTo(50);
    assertThat(told.tonic()).isGreaterThan(0.8);
    assertThat(told.wrong()).isLessThan(0.2);
  }
}
