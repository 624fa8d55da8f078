package undersong.bench.metrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Expected values are worked by hand from the definitions in the cited papers. */
class FormMetricsTest {
  private static final List<Timed<String>> SONG =
      List.of(new Timed<>(0, 10, "A"), new Timed<>(10, 20, "B"), new Timed<>(20, 30, "A"));
  private static final List<Timed<String>> ONE = List.of(new Timed<>(0, 30, "A"));

  @Test
  void agreesFullyWithItself() {
    assertThat(FormMetrics.boundaries(SONG, SONG, 0.5, true).f()).isEqualTo(1);
    assertThat(FormMetrics.pairwise(SONG, SONG).f()).isEqualTo(1);
    assertThat(FormMetrics.entropies(SONG, SONG).f()).isCloseTo(1, within(1e-9));
    assertThat(FormMetrics.vMeasure(SONG, SONG).f()).isCloseTo(1, within(1e-9));
    assertThat(FormMetrics.deviation(SONG, SONG).referenceToEstimate()).isZero();
  }

  @Test
  void countsTheOuterEdgesAsFreeHitsUnlessTrimmed() {
    assertThat(FormMetrics.boundaries(SONG, ONE, 0.5, false))
        .isEqualTo(new PrecisionRecall(1, 0.5));
    assertThat(FormMetrics.boundaries(SONG, ONE, 0.5, true).f()).isZero();
  }

  @Test
  void holdsTheWindowInclusively() {
    List<Timed<String>> late =
        List.of(
            new Timed<>(0, 10.5, "A"), new Timed<>(10.5, 23.1, "B"), new Timed<>(23.1, 30, "A"));
    assertThat(FormMetrics.boundaries(SONG, late, 0.5, true).f()).isEqualTo(0.5);
    assertThat(FormMetrics.boundaries(SONG, late, 3, true).f()).isEqualTo(0.5);
    assertThat(FormMetrics.boundaries(SONG, late, 3.2, true).f()).isEqualTo(1);
  }

  @Test
  void pairsFramesUnderOneLabel() {
    // 300 frames: 200 A, 100 B; one label: all 300 alike
    double both = 200 * 199 / 2.0 + 100 * 99 / 2.0;
    PrecisionRecall pairs = FormMetrics.pairwise(SONG, ONE);
    assertThat(pairs.precision()).isCloseTo(both / (300 * 299 / 2.0), within(1e-9));
    assertThat(pairs.recall()).isEqualTo(1);
  }

  @Test
  void tellsOverFromUnderSegmentation() {
    FormMetrics.Entropies under = FormMetrics.entropies(SONG, ONE);
    assertThat(under.over()).isEqualTo(1);
    double entropy = -(2.0 / 3 * Math.log(2.0 / 3) + 1.0 / 3 * Math.log(1.0 / 3)) / Math.log(2);
    assertThat(under.under()).isCloseTo(1 - entropy, within(1e-9));
  }

  @Test
  void ignoresTheCaseOfLabelsAndFillsTheEnd() {
    List<Timed<String>> lower =
        List.of(new Timed<>(0, 10, "a"), new Timed<>(10, 20, "b"), new Timed<>(20, 40, "a"));
    assertThat(FormMetrics.pairwise(SONG, lower).f()).isEqualTo(1);
    assertThat(FormMetrics.pairwise(SONG, List.of()).recall()).isEqualTo(1);
  }

  @Test
  void measuresDeviation() {
    List<Timed<String>> shifted =
        List.of(new Timed<>(0, 11, "A"), new Timed<>(11, 22, "B"), new Timed<>(22, 30, "A"));
    assertThat(FormMetrics.deviation(SONG, shifted).referenceToEstimate()).isEqualTo(0.5);
  }
}
