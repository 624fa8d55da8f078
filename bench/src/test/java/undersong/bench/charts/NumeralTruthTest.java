package undersong.bench.charts;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.bench.data.Chart;
import undersong.bench.data.NumeralSong;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.Timed;

/** One numeral a bar of one beat, a second each. */
class NumeralTruthTest {
  private static List<Timed<String>> stated(KeyLabel key, String... numerals) {
    List<Chart.Bar> bars = new ArrayList<>();
    List<NumeralSong.Numeral> written = new ArrayList<>();
    for (int i = 0; i < numerals.length; i++) {
      List<Chart.Change> silent = List.of(new Chart.Change(0, ChordCode.NONE));
      bars.add(new Chart.Bar(1, false, key, silent, "A", "", i == 0));
      written.add(new NumeralSong.Numeral(i, i + 1, numerals[i], key));
    }
    Chart chart = new Chart("own-test", bars, List.of(), List.of());
    return new NumeralTruth(new NumeralSong(chart, written, false), 1).occurrences();
  }

  /** Definitions of mixture and applied chords: Open Music Theory (from memory). */
  @Test
  void readsMixtureAndAppliedChordsOffTheText() {
    assertThat(stated(KeyLabel.major(0), "I", "bVI", "bVII", "I", "iv6", "V7/V", "V", "vi"))
        .containsExactlyInAnyOrder(
            new Timed<>(1, 3, "borrowed-chord"),
            new Timed<>(4, 5, "borrowed-chord"),
            new Timed<>(5, 6, "secondary-dominant"));
  }

  @Test
  void countsRaisedSevensOfMinorApartFromMixture() {
    assertThat(stated(KeyLabel.minor(9), "i", "V7", "I", "iv", "viio7", "I"))
        .containsExactlyInAnyOrder(
            new Timed<>(1, 2, "harmonic-minor-dominant"),
            new Timed<>(4, 5, "harmonic-minor-dominant"),
            new Timed<>(5, 6, "borrowed-chord"));
  }

  @Test
  void takesNeitherNeapolitansNorSevenDiminishedForMixture() {
    assertThat(stated(KeyLabel.major(0), "I", "bII6", "V", "viio7", "vi", "ii", "iii", "Ger65"))
        .isEmpty();
  }
}
