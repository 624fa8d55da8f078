package undersong.kernel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

final class LogisticScaleTest {
  @Test
  void slopeOneAndNoBiasChangeNothing() {
    LogisticScale same = new LogisticScale(1, 0);
    for (double p : new double[] {0.01, 0.3, 0.5, 0.9, 0.99}) {
      assertThat(same.of(p)).isCloseTo(p, within(1e-12));
    }
  }

  /** Worked by hand: odds 9 to 1, halved in the logarithm, are 3 to 1. */
  @Test
  void halvingTheLogOddsTakesTheRootOfTheOdds() {
    assertThat(new LogisticScale(0.5, 0).of(0.9)).isCloseTo(0.75, within(1e-12));
    assertThat(new LogisticScale(1, Math.log(2)).of(0.5)).isCloseTo(2 / 3.0, within(1e-12));
  }

  @Test
  void certaintyStaysFinite() {
    LogisticScale modest = new LogisticScale(0.5, 0);
    assertThat(modest.of(1)).isBetween(0.9, 0.99);
    assertThat(modest.of(0)).isBetween(0.01, 0.1);
  }

  @Test
  void refusesToTurnTheOrderAround() {
    assertThatThrownBy(() -> new LogisticScale(0, 1)).hasMessageContaining("Slope");
  }
}
