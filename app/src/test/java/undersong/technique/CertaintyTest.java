package undersong.technique;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

class CertaintyTest {
  @Test
  void multipliesWhatMustAllHold() {
    assertThat(Certainty.all(0.5, 0.8)).isEqualTo(0.4);
    assertThat(Certainty.all()).isEqualTo(1);
  }

  /** Binomial distribution, 10 tosses of a fair coin: 7 or more heads = 176 / 1024. */
  @Test
  void countsAsTheBinomialDistributionDoes() {
    assertThat(Certainty.atLeast(7, Collections.nCopies(10, 0.5)))
        .isEqualTo(176 / 1024.0, within(1e-12));
  }

  @Test
  void asksForAllOrForNone() {
    assertThat(Certainty.atLeast(2, List.of(0.5, 0.8))).isEqualTo(0.4, within(1e-12));
    assertThat(Certainty.atLeast(0, List.of(0.5, 0.8))).isEqualTo(1, within(1e-12));
    assertThat(Certainty.atLeast(3, List.of(0.5, 0.8))).isZero();
  }

  @Test
  void isUndecidedOnTheLimit() {
    assertThat(Certainty.beyond(3, 3, 0.5)).isEqualTo(0.5);
    assertThat(Certainty.beyond(3.5, 3, 0.5)).isEqualTo(0.88, within(0.005));
    assertThat(Certainty.beyond(2.5, 3, 0.5)).isEqualTo(0.12, within(0.005));
  }

  @Test
  void refusesWhatIsNoProbability() {
    assertThatThrownBy(() -> Certainty.all(1.2)).hasMessageContaining("1.2");
  }
}
