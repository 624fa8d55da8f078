package undersong.bench.metrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Expected values are worked by hand from the definitions in the cited papers. */
class BeatMetricsTest {
  private static final double[] NONE = {};
  private static final double[] STEADY = every(0.5, 41);

  private static double[] every(double periodSeconds, int beats) {
    return IntStream.range(0, beats).mapToDouble(i -> 6 + periodSeconds * i).toArray();
  }

  private static double[] shifted(double[] beats, double seconds) {
    return Arrays.stream(beats).map(b -> b + seconds).toArray();
  }

  @Test
  void agreesFullyWithItself() {
    assertThat(BeatMetrics.score(STEADY, STEADY).f()).isEqualTo(1);
    assertThat(BeatMetrics.cemgil(STEADY, STEADY)).isEqualTo(1);
    assertThat(BeatMetrics.goto97(STEADY, STEADY)).isEqualTo(1);
    assertThat(BeatMetrics.pScore(STEADY, STEADY)).isEqualTo(1);
    assertThat(BeatMetrics.informationGain(STEADY, STEADY)).isCloseTo(1, within(1e-9));
    assertThat(BeatMetrics.continuity(STEADY, STEADY))
        .isEqualTo(new BeatMetrics.Continuity(1, 1, 1, 1));
  }

  @Test
  void givesNothingForSilence() {
    assertThat(BeatMetrics.score(STEADY, NONE).f()).isZero();
    assertThat(BeatMetrics.score(NONE, STEADY).f()).isZero();
    assertThat(BeatMetrics.cemgil(STEADY, NONE)).isZero();
    assertThat(BeatMetrics.goto97(STEADY, NONE)).isZero();
    assertThat(BeatMetrics.pScore(STEADY, NONE)).isZero();
    assertThat(BeatMetrics.informationGain(STEADY, NONE)).isZero();
    assertThat(BeatMetrics.continuity(STEADY, NONE).anyTotal()).isZero();
  }

  @Test
  void findsHalfTempoPreciseButIncomplete() {
    double[] half = every(1, 21);
    PrecisionRecall score = BeatMetrics.score(STEADY, half);
    assertThat(score.precision()).isEqualTo(1);
    assertThat(score.recall()).isEqualTo(21.0 / 41);
    assertThat(BeatMetrics.fAtAnyLevel(STEADY, half)).isEqualTo(1);
    assertThat(BeatMetrics.continuity(STEADY, half).correctTotal()).isZero();
    assertThat(BeatMetrics.continuity(STEADY, half).anyTotal()).isEqualTo(1);
    assertThat(BeatMetrics.goto97(STEADY, half)).isZero();
  }

  @Test
  void losesOnlyTheEndWhenShiftedByOneBeat() {
    PrecisionRecall score = BeatMetrics.score(STEADY, shifted(STEADY, 0.5));
    assertThat(score.f()).isEqualTo(40.0 / 41);
  }

  @Test
  void countsTheWindowsBoundAsInside() {
    assertThat(BeatMetrics.score(new double[] {8}, new double[] {8.0625}).f()).isEqualTo(1);
    assertThat(Matching.within(new double[] {0}, new double[] {0.07}, 0.07)).isEqualTo(1);
    assertThat(Matching.within(new double[] {0}, new double[] {0.0701}, 0.07)).isZero();
  }

  @Test
  void matchesAsManyAsPossibleNotTheNearestFirst() {
    // Nearest first would give 1.00 to 0.96 (0.04 away) and leave 0.90 and 1.05 unmatched.
    double[] reference = {0.90, 1.00};
    double[] estimated = {0.96, 1.05};
    assertThat(Matching.within(reference, estimated, 0.07)).isEqualTo(2);
  }

  @Test
  void leavesOutTheFirstFiveSeconds() {
    assertThat(BeatMetrics.trim(new double[] {0, 4.999, 5, 6})).containsExactly(5, 6);
  }

  @Test
  void scoresCemgilByTheGaussian() {
    // every beat 40 ms late = one sigma: exp(-1/2)
    assertThat(BeatMetrics.cemgil(STEADY, shifted(STEADY, 0.04)))
        .isCloseTo(Math.exp(-0.5), within(1e-9));
  }

  @Test
  void takesContinuityStrictly() {
    // 0.0876 s is just over 0.175 of the period: not correct
    double[] reference = {0, 0.5, 1, 1.5};
    assertThat(BeatMetrics.continuity(reference, shifted(reference, 0.0876)).correctTotal())
        .isZero();
    assertThat(BeatMetrics.continuity(reference, shifted(reference, 0.08)).correctTotal())
        .isEqualTo(1);
  }

  @Test
  void findsOffBeatsRightAtAnotherLevel() {
    double[] off = Arrays.copyOf(shifted(STEADY, 0.25), 40);
    assertThat(BeatMetrics.continuity(STEADY, off).correctTotal()).isZero();
    assertThat(BeatMetrics.continuity(STEADY, off).anyTotal()).isEqualTo(1);
    assertThat(BeatMetrics.fAtAnyLevel(STEADY, off)).isEqualTo(1);
  }

  @Test
  void countsTheLongestRunApartFromTheTotal() {
    double[] estimated = STEADY.clone();
    estimated[20] += 0.2;
    BeatMetrics.Continuity continuity = BeatMetrics.continuity(STEADY, estimated);
    // beat 20 is off, and beat 21 has a wrong interval behind it
    assertThat(continuity.correctTotal()).isEqualTo(39.0 / 41);
    assertThat(continuity.correctLongest()).isEqualTo(20.0 / 41);
  }

  @Test
  void acceptsTemporaryTempoLevels() {
    assertThat(TempoMetrics.accuracy1(120, 124.8)).isTrue();
    assertThat(TempoMetrics.accuracy1(120, 125)).isFalse();
    assertThat(TempoMetrics.accuracy2(120, 60)).isTrue();
    assertThat(TempoMetrics.accuracy2(120, 40)).isTrue();
    assertThat(TempoMetrics.accuracy2(120, 80)).isFalse();
    assertThat(TempoMetrics.pScore(60, 120, 0.7, new double[] {64})).isEqualTo(0.7);
  }
}
