package undersong.bench.metrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import undersong.bench.metrics.EchoMetrics.Copy;
import undersong.bench.metrics.EchoMetrics.Kind;
import undersong.bench.metrics.SpaceMetrics.Placed;
import undersong.bench.metrics.SpaceMetrics.Sound;

/** Placement, copies, layers: worked by hand from the definitions of this bench. */
class ProductionMetricsTest {
  private static final SungNote A4 = new SungNote(1, 2, 69);
  private static final SungNote A5 = new SungNote(1, 2, 81);

  private static Placed placed(double start, double end, double hertz, double placement) {
    return new Placed(start, end, hertz * 0.97, hertz * 1.03, placement);
  }

  @Test
  void placesNotesByPitchAndTime() {
    List<Sound> truth = List.of(new Sound(A4, -0.5), new Sound(A5, 0.5));
    List<Placed> right = List.of(placed(1, 2, 440, -0.5), placed(1, 2, 880, 0.5));
    assertThat(SpaceMetrics.placement(truth, right)).isEqualTo(new SpaceMetrics.Placement(1, 0));
    List<Placed> swapped = List.of(placed(1, 2, 440, 0.5), placed(1, 2, 880, -0.5));
    assertThat(SpaceMetrics.placement(truth, swapped).meanError()).isEqualTo(1);
    assertThat(SpaceMetrics.placement(truth, List.of(placed(1.6, 3, 440, 0))).found()).isZero();
    assertThat(SpaceMetrics.placement(truth, List.of(placed(1, 3, 440, -0.2))))
        .satisfies(p -> assertThat(p.found()).isEqualTo(0.5))
        .satisfies(p -> assertThat(p.meanError()).isCloseTo(0.3, within(1e-9)));
    assertThat(SpaceMetrics.placement(List.of(), right).found()).isNaN();
  }

  @Test
  void prefersTheEstimateThatSharesMostTime() {
    List<Placed> two = List.of(placed(0, 9, 440, 0.9), placed(1, 2.2, 440, -0.5));
    assertThat(SpaceMetrics.placement(List.of(new Sound(A4, -0.5)), two).meanError()).isZero();
  }

  @Test
  void countsShortLinesOnTheirSide() {
    List<List<Sound>> lines =
        List.of(
            List.of(new Sound(A4, -0.7), new Sound(A5, -0.7)),
            List.of(new Sound(new SungNote(3, 4, 69), 0.7)),
            List.of(new Sound(new SungNote(5, 6, 69), -0.7)));
    List<Placed> oneWrongOneUntold =
        List.of(placed(1, 2, 440, -0.6), placed(1, 2, 880, -0.1), placed(3, 4, 440, -0.8));
    assertThat(SpaceMetrics.sides(lines, oneWrongOneUntold))
        .isEqualTo(new PrecisionRecall(0.5, 1.0 / 3));
  }

  @Test
  void findsCopiesByKindTimeAndLag() {
    List<Copy> truth =
        List.of(
            new Copy(Kind.DELAY, 0, 4, 0.3),
            new Copy(Kind.DELAY, 8, 12, 0.3),
            new Copy(Kind.AGAIN, 20, 24, 2));
    List<Copy> oneLong = List.of(new Copy(Kind.DELAY, 1, 11, 0.31));
    assertThat(EchoMetrics.found(truth, oneLong, Kind.DELAY)).isEqualTo(new PrecisionRecall(1, 1));
    assertThat(EchoMetrics.lagErrorsMilliseconds(truth, oneLong))
        .hasSize(2)
        .containsExactly(new double[] {10, 10}, within(1e-9));
    List<Copy> otherLag = List.of(new Copy(Kind.DELAY, 1, 11, 0.36));
    assertThat(EchoMetrics.found(truth, otherLag, Kind.DELAY).f()).isZero();
    assertThat(EchoMetrics.found(truth, List.of(), Kind.AGAIN).f()).isZero();
  }

  @Test
  void tellsEchoesFromLinesPerformedAgain() {
    List<Copy> truth =
        List.of(
            new Copy(Kind.DELAY, 0, 4, 0.3),
            new Copy(Kind.AGAIN, 5, 9, 2),
            new Copy(Kind.DOUBLE, 10, 14, 0.02));
    List<Copy> said = List.of(new Copy(Kind.DELAY, 0, 4, 0.3), new Copy(Kind.DELAY, 5, 9, 2.1));
    List<EchoMetrics.Told> told = EchoMetrics.told(truth, said);
    assertThat(EchoMetrics.confusion(told))
        .isEqualTo(
            Map.of(
                Kind.DELAY, Map.of(Kind.DELAY, 1L),
                Kind.AGAIN, Map.of(Kind.DELAY, 1L),
                Kind.DOUBLE, Map.of(Kind.UNHEARD, 1L)));
    assertThat(EchoMetrics.confused(told)).isEqualTo(0.5);
    assertThat(EchoMetrics.confused(EchoMetrics.told(truth, List.of()))).isNaN();
  }

  @Test
  void matchesEntriesAndExitsWithinHalfABar() {
    List<Timed<String>> truth =
        List.of(
            new Timed<>(0, 20, "drums"), new Timed<>(28, 60, "drums"), new Timed<>(8, 60, "bass"));
    assertThat(score(truth, truth).f()).isEqualTo(1);
    List<Timed<String>> late = List.of(new Timed<>(0, 21, "drums"), new Timed<>(29.5, 60, "drums"));
    assertThat(score(truth, late)).isEqualTo(new PrecisionRecall(0.5, 1.0 / 3));
    List<Timed<String>> rest = List.of(new Timed<>(0, 20, "drums"), new Timed<>(23, 60, "drums"));
    assertThat(score(rest, List.of(new Timed<>(0, 60, "drums"))).f()).isNaN();
  }

  private static PrecisionRecall score(
      List<Timed<String>> reference, List<Timed<String>> estimated) {
    return LayerMetrics.entriesAndExits(reference, estimated, List.of("drums", "bass"), 2, 0, 60)
        .score();
  }
}
