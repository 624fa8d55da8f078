package undersong.bench.metrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Weights as published for the MIREX key task. */
class KeyMetricsTest {
  private static final KeyLabel C = KeyLabel.major(0);

  @Test
  void weighsNearMisses() {
    assertThat(KeyMetrics.weighted(C, C, false)).isEqualTo(1);
    assertThat(KeyMetrics.weighted(C, KeyLabel.major(7), false)).isEqualTo(0.5);
    assertThat(KeyMetrics.weighted(C, KeyLabel.major(5), false)).isZero();
    assertThat(KeyMetrics.weighted(C, KeyLabel.major(5), true)).isEqualTo(0.5);
    assertThat(KeyMetrics.weighted(C, KeyLabel.minor(9), false)).isEqualTo(0.3);
    assertThat(KeyMetrics.weighted(KeyLabel.minor(9), C, false)).isEqualTo(0.3);
    assertThat(KeyMetrics.weighted(C, KeyLabel.minor(0), false)).isEqualTo(0.2);
    assertThat(KeyMetrics.weighted(C, KeyLabel.minor(4), true)).isZero();
    assertThat(KeyMetrics.weighted(KeyLabel.NONE, KeyLabel.NONE, false)).isEqualTo(1);
    assertThat(KeyMetrics.weighted(KeyLabel.NONE, C, false)).isZero();
  }

  @Test
  void countsAnyOtherModeOnTheSameTonic() {
    assertThat(KeyMetrics.weighted(new KeyLabel(2, "dorian"), KeyLabel.minor(2), false))
        .isEqualTo(0.2);
  }

  @Test
  void weighsByTime() {
    List<Timed<KeyLabel>> reference = List.of(new Timed<>(0, 10, C));
    List<Timed<KeyLabel>> estimated =
        List.of(new Timed<>(0, 5, C), new Timed<>(5, 8, KeyLabel.minor(9)));
    assertThat(KeyMetrics.weightedByTime(reference, estimated))
        .isCloseTo(0.5 + 0.3 * 0.3, within(1e-9));
  }
}
