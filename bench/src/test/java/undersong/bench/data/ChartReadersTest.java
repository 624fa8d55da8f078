package undersong.bench.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyLabel;

/** Small pieces in each format, written here and worked out by hand. */
class ChartReadersTest {
  @Test
  void readsBarsRepeatsAndMetersOfACharts() {
    Chart chart =
        BillboardReader.read(
            "test-1",
            List.of(
                "# metre: 4/4",
                "# tonic: A",
                "",
                "0.0\tA, verse, | A:min | F:maj . G:maj/3 . | x2, (voice",
                "8.0\tB, chorus, | (2/4) D:5 | . |"));
    assertThat(chart.bars()).hasSize(6);
    Chart.Bar second = chart.bars().get(1);
    assertThat(second.changes())
        .containsExactly(
            new Chart.Change(0, HarteChord.parse("F:maj")),
            new Chart.Change(2, HarteChord.parse("G:maj/3")));
    assertThat(second.key()).isEqualTo(KeyLabel.minor(9));
    assertThat(chart.bars().get(4).beats()).isEqualTo(2);
    assertThat(chart.bars().get(4).opensSection()).isTrue();
    assertThat(chart.bars().get(5).changes().get(0).chord()).isEqualTo(HarteChord.parse("D:5"));
  }

  @Test
  void readsTheStatedMode() {
    Chart chart =
        BillboardReader.read(
            "test-2", List.of("# metre: 6/8", "# tonic: D", "# mode: dorian", "0\tA, | D:min |"));
    assertThat(chart.bars().get(0).key()).isEqualTo(new KeyLabel(2, "dorian"));
    assertThat(chart.bars().get(0).beats()).isEqualTo(2);
    assertThat(chart.bars().get(0).compound()).isTrue();
  }

  @Test
  void readsTheTuneThatAChartStates() {
    Chart chart =
        BillboardReader.read(
            "test-3",
            List.of(
                "# metre: 2/4",
                "# tonic: C",
                "# tune A: 7:1 -:0.5 4:0.5 0:4",
                "0\tA, | C:maj | C:maj |",
                "# tonic: D",
                "0\tA, | D:maj |"));
    assertThat(chart.tune()).extracting(Chart.Note::midiPitch).containsExactly(67, 64, 60, 69, 66);
    assertThat(chart.tune())
        .extracting(Chart.Note::startBeat)
        .containsExactly(0.0, 1.5, 2.0, 4.0, 5.5);
    assertThat(chart.tune().get(2).endBeat()).isBetween(3.9, 4.0);
  }

  /** ABC 1.6: an upbeat, two endings of which the last is read, signature, accidental, triplet. */
  @Test
  void readsAFolkTuneWithItsLastEndingsTwice() {
    Chart chart =
        FolkTuneReader.read(
            "test-4",
            List.of(
                "X:1",
                "M:2/4",
                "L:1/8",
                "K:Em",
                "B|\"Em\"e2 f2|\"Am\"=fe (3cBA|\"B7\"B4|\"Em\"e3 :|",
                "B|e4|e4|[1 \"D\"d4|e3:|[2 \"B7\"B4|\"Em\"e4||"));
    assertThat(chart.bars()).hasSize(16);
    assertThat(chart.bars().get(0).key()).isEqualTo(KeyLabel.minor(4));
    assertThat(chart.tune().subList(0, 7))
        .extracting(Chart.Note::midiPitch)
        .containsExactly(76, 78, 77, 76, 72, 71, 69);
    assertThat(chart.tune().get(5).startBeat()).isCloseTo(3 + 1 / 3.0, within(1e-9));
    assertThat(chart.bars().get(6).changes().get(0).chord()).isEqualTo(HarteChord.parse("B:7"));
    assertThat(chart.bars())
        .filteredOn(Chart.Bar::opensSection)
        .extracting(bar -> chart.bars().indexOf(bar))
        .contains(0, 4);
    assertThat(chart.tune().get(chart.tune().size() / 2).startBeat()).isEqualTo(16);
  }

  @ParameterizedTest
  @CsvSource({
    "I, C:maj",
    "vi, A:min",
    "bVII, Bb:maj",
    "V7, G:7",
    "IV7, F:maj7",
    "ii65, D:min7/b3",
    "I64, C:maj/5",
    "V/V, D:maj",
    "V7/ii, A:7",
    "viix7/V, Gb:dim7",
    "iih7, D:hdim7",
    "Vs4, G:sus4",
    "IVd7, F:7",
    "I6, C:maj/3",
    "bVI, Ab:maj",
    "V42/IV, C:7/b7"
  })
  void readsRockNumeralsInC(String numeral, String chord) {
    assertThat(RockNumeral.read(numeral, 0)).isEqualTo(HarteChord.parse(chord));
  }

  @Test
  void refusesWhatIsNoNumeral() {
    assertThatThrownBy(() -> RockNumeral.read("Warning:", 0))
        .isInstanceOf(Harvest.Unreadable.class)
        .hasMessageContaining("Warning:");
  }

  @Test
  void readsTunesOfScaleDegrees() {
    List<List<RockCorpusReader.Onset>> bars =
        new RockTune().read("[D] [OCT=4] R*2 | 1. .5 | 6 v1 |");
    assertThat(bars).hasSize(4);
    assertThat(bars.get(2))
        .containsExactly(new RockCorpusReader.Onset(0, 62), new RockCorpusReader.Onset(0.75, 57));
    assertThat(bars.get(3))
        .containsExactly(new RockCorpusReader.Onset(0, 59), new RockCorpusReader.Onset(0.5, 50));
  }

  @Test
  void cutsExcerptsWithTheirTune() {
    Chart chart =
        BillboardReader.read("test-3", List.of("# metre: 4/4", "# tonic: C", "0\tA, | C:maj | x8"));
    Chart tuned =
        new Chart("t", chart.bars(), List.of(new Chart.Note(9, 10, 60)), List.of()).excerpt(2, 4);
    assertThat(tuned.bars()).hasSize(2);
    assertThat(tuned.tune()).containsExactly(new Chart.Note(1, 2, 60));
  }
}
