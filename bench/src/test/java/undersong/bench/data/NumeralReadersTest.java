package undersong.bench.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NumeralReadersTest {
  /** RomanText's rules for minor, sevenths and augmented sixths (from memory). */
  @ParameterizedTest
  @CsvSource({
    "VI, true, bVI",
    "VII7, true, bVII7",
    "vi, true, vi",
    "VI, false, VI",
    "viio7/V, true, viix7/V",
    "V7/III, true, V7/bIII",
    "iiø65, true, iih65",
    "Cad64, true, i64",
    "Ger65, false, bVId7",
    "V2, false, V42"
  })
  void writesEveryDegreeAgainstTheMajorScale(String romanText, boolean minor, String expected) {
    assertThat(LiederReader.againstMajor(romanText, minor)).isEqualTo(expected);
  }

  /** The unexpanded and the expanded form of the corpus must count the same bars. */
  @Test
  void namesTheSectionsOfEveryRockSong() throws IOException {
    List<NumeralSong> songs = RockNumeralReader.readAll(data("rock-corpus-rs200"));
    assertThat(songs).hasSizeGreaterThan(95);
    assertThat(songs.stream().filter(song -> !isDivided(song)).map(song -> song.chart().id()))
        .isEmpty();
  }

  private static boolean isDivided(NumeralSong song) {
    return !song.numerals().isEmpty()
        && song.chart().bars().stream().filter(Chart.Bar::opensSection).count() > 1;
  }

  @Test
  void readsEveryArtSong() throws IOException {
    Harvest<NumeralSong> songs = LiederReader.readAll(data("when-in-rome-lieder"));
    assertThat(songs.refused()).isEmpty();
    List<Chart.Change> changes =
        songs.read().stream()
            .flatMap(song -> song.chart().bars().stream())
            .flatMap(bar -> bar.changes().stream())
            .toList();
    assertThat(songs.read()).hasSize(50);
    assertThat(changes.stream().filter(change -> !change.chord().known()).count())
        .isLessThan(changes.size() / 100);
  }

  private static Path data(String set) {
    assumeTrue(OpenData.find().isPresent(), "UNDERSONG_DATA is not set: open data not read");
    return OpenData.folder(set);
  }
}
