package undersong.bench.metrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static undersong.bench.metrics.ChordMetrics.Level;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Single-label cases as the public library mir_eval answers them (commit fe73b35). */
class ChordMetricsTest {
  private static List<Timed<ChordCode>> song(String... labels) {
    return java.util.stream.IntStream.range(0, labels.length)
        .mapToObj(i -> new Timed<>(i, i + 1.0, HarteChord.parse(labels[i])))
        .toList();
  }

  @ParameterizedTest
  @CsvSource({
    "C:maj, 0, 145, 0",
    "C, 0, 145, 0",
    "Db:min7, 1, 1161, 0",
    "B#:5, 0, 129, 0",
    "G:7/3, 7, 1169, 4",
    "G:9, 7, 1169, 0",
    "C:maj(9), 0, 145, 0",
    "C:maj(b7), 0, 1169, 0",
    "C:maj/b7, 0, 1169, 10",
    "C:maj/2, 0, 149, 2",
    "C:maj(*3), 0, 129, 0",
    "C:maj6(9), 0, 657, 0",
    "C:1, 0, 1, 0",
    "F:maj/9, 5, 149, 2"
  })
  void encodesLabels(String label, int root, int bits, int bass) {
    assertThat(HarteChord.parse(label)).isEqualTo(new ChordCode(root, bits, bass, true));
  }

  @ParameterizedTest
  @org.junit.jupiter.params.provider.ValueSource(strings = {"H:maj", "C:foo", "C:maj/17", ""})
  void refusesWhatIsNoLabel(String label) {
    assertThatIllegalArgumentException().isThrownBy(() -> HarteChord.parse(label));
  }

  @ParameterizedTest
  @CsvSource({
    // label, its majmin agreement with itself, its sevenths agreement with itself
    "C:maj, 1, 1",
    "N, 1, 1",
    "X, -1, -1",
    "C:sus4, -1, -1",
    "C:aug, -1, -1",
    "C:5, -1, -1",
    "C:1, -1, -1",
    "C:maj6, 1, -1",
    "C:9, 1, 1",
    "C:maj/2, -1, -1",
    "C:maj/b7, 1, 1",
    "C:minmaj7, 1, -1",
    "C:dim, -1, -1"
  })
  void decidesByTheReferenceWhatIsJudged(String label, int majmin, int sevenths) {
    ChordCode chord = HarteChord.parse(label);
    assertThat(Level.MAJMIN.of(chord, chord)).isEqualTo(majmin);
    assertThat(Level.SEVENTHS.of(chord, chord)).isEqualTo(sevenths);
  }

  @ParameterizedTest
  @CsvSource({
    "ROOT, C:maj, C:min7, 1",
    "ROOT, C:maj, G:maj/5, 0",
    "THIRDS, C:min, C:dim7, 1",
    "THIRDS, C:min, C:maj, 0",
    "TRIADS, C:maj, C:maj7, 1",
    "TRIADS, C:sus4, C:maj, 0",
    "TETRADS, C:maj, C:maj7, 0",
    "MAJMIN, C:7, C:maj, 1",
    "MAJMIN, C:maj, C:sus4, 0",
    "MAJMIN, N, C:maj, 0",
    "SEVENTHS, C:maj/b7, C:7, 1",
    "SEVENTHS, C:9, C:7, 1",
    "SEVENTHS, C:maj7, C:maj, 0",
    "MIREX, C:maj6, A:min7, 1",
    "MIREX, C:maj, A:min, 0",
    "MIREX, C:5, C:5, -1",
    "MIREX, N, N, 1",
    "MAJMIN, X, C:maj, -1",
    "MAJMIN, C:maj, X, 0"
  })
  void comparesAtEachLevel(Level level, String reference, String estimated, double agreement) {
    assertThat(level.of(HarteChord.parse(reference), HarteChord.parse(estimated)))
        .isEqualTo(agreement);
  }

  @Test
  void asksForTheBassWhereInversionsCount() {
    ChordCode inverted = HarteChord.parse("C:maj/3");
    assertThat(Level.MAJMIN.of(inverted, HarteChord.parse("C:maj"))).isEqualTo(1);
    assertThat(Level.MAJMIN.withBass(inverted, HarteChord.parse("C:maj"))).isZero();
    assertThat(ChordMetrics.invertedRecall(song("C:maj", "C:maj/3"), song("C:maj", "C:maj/3")))
        .isEqualTo(1);
    assertThat(ChordMetrics.invertedRecall(song("C:maj", "C:maj/3"), song("C:maj", "C:maj")))
        .isZero();
    assertThat(ChordMetrics.invertedRecall(song("C:maj"), song("C:maj"))).isNaN();
  }

  @Test
  void weighsByTimeAndFillsWithNoChord() {
    assertThat(ChordMetrics.overlap(song("C", "G", "X", "N"), song("C", "D"), Level.MAJMIN))
        .isCloseTo(2.0 / 3, within(1e-9));
    assertThat(ChordMetrics.overlap(song("C", "G"), List.of(), Level.MAJMIN)).isZero();
  }

  @Test
  void measuresSegmentation() {
    List<Timed<ChordCode>> truth = List.of(new Timed<>(0, 4, HarteChord.parse("C")));
    List<Timed<ChordCode>> cut = song("C", "D", "E", "F");
    assertThat(ChordMetrics.segmentation(truth, truth).both()).isEqualTo(1);
    // the true span keeps its longest quarter only; every estimated one lies inside it
    assertThat(ChordMetrics.segmentation(truth, cut))
        .isEqualTo(new ChordMetrics.Segmentation(0.25, 1));
    // equal neighbors count as one
    assertThat(ChordMetrics.segmentation(song("C", "C"), song("C", "C:maj")).both()).isEqualTo(1);
  }

  @Test
  void tellsOpenHarmony() {
    HarmonyMetrics.OpenHarmony open =
        HarmonyMetrics.openHarmony(
            song("D:5", "D:1", "D:min", "D:maj"), song("D:5", "D:min", "D:5", "D:maj"));
    assertThat(open).isEqualTo(new HarmonyMetrics.OpenHarmony(0.5, 0.5));
  }

  @Test
  void measuresArrival() {
    List<HarmonyMetrics.Change> changes =
        List.of(
            new HarmonyMetrics.Change(2, 2),
            new HarmonyMetrics.Change(3.75, 4),
            new HarmonyMetrics.Change(5.75, 6));
    HarmonyMetrics.Arrival arrival =
        HarmonyMetrics.arrival(changes, new double[] {2.05, 3.75, 6}, 0.5);
    assertThat(arrival.medianBeats()).isCloseTo(0.1, within(1e-9));
    assertThat(arrival.earlyTold()).isEqualTo(0.5);
  }
}
