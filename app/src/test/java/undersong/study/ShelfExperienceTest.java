package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.shelf.Origin;
import undersong.trend.Experience;

class ShelfExperienceTest {
  private static final Set<Origin> CHARTS = Set.of(Origin.CHART);
  private static final String ODD = "[E] [4/4] I | #iv | bIII | vii |";

  @TempDir Path folder;

  /** A chart in the plain text of RS200 (T. de Clercq, D. Temperley), by our own hand. */
  private void write(String name, String chords) throws IOException {
    Path rock = folder.resolve("data/rock-corpus-rs200/rs200_harmony_exp");
    Files.createDirectories(rock);
    Files.writeString(rock.resolve(name + "_dt.txt"), chords);
  }

  private void load(Study study) throws IOException {
    study.withoutSound().loadCharts(folder.resolve("data"));
  }

  private static long first(Study study) {
    return study.songs("chart", CHARTS).stream()
        .map(entry -> entry.song().id())
        .min(Comparator.naturalOrder())
        .orElseThrow();
  }

  @Test
  void aShelfOfLikeSongsTeachesWhatComesNext() throws IOException {
    try (Study study = StandInStudy.in(folder)) {
      write("a_first", ODD + ODD.substring(9));
      load(study);
      long song = first(study);
      Experience alone = study.trends().experience(song, CHARTS);
      assertThat(alone.byCharts()).isPresent();
      assertThat(alone.byShelf()).isEmpty();
      assertThat(alone.said()).contains("what your shelf has taught cannot be said");

      for (int i = 0; i < 6; i++) {
        // The last one differs: equal charts are one song.
        write("b_other" + i, ODD + " | I |".repeat(i + 1));
      }
      load(study);
      Experience taught = study.trends().experience(song, CHARTS);
      assertThat(taught.byCharts()).isEqualTo(alone.byCharts());
      assertThat(taught.byShelf().orElseThrow())
          .isLessThan(taught.byCharts().orElseThrow() - 1)
          .isPositive();
      assertThat(taught.said()).contains("to someone who knows 6 songs of your shelf too");
      assertThat(study.trends().experience(song, CHARTS)).isEqualTo(taught);
      // Charts have no sound, so nothing rises.
      assertThat(taught.energies()).isEmpty();

      write("c_more", ODD + " | IV | V |");
      load(study);
      Experience more = study.trends().experience(song, CHARTS);
      assertThat(more.others()).isEqualTo(7);
      assertThat(more.byShelf().orElseThrow()).isLessThan(taught.byShelf().orElseThrow());
    }
  }
}
