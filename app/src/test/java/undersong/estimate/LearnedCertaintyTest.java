package undersong.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** The logistic function as in J. Platt, "Probabilistic outputs for support vector machines". */
class LearnedCertaintyTest {
  private static final List<String> POSTERIOR = List.of("posterior");
  private static final LearnedCertainty KEYS = LearnedCertainty.of("keys", POSTERIOR);

  /** Worked by hand: odds of 9 to 1 are the natural logarithm of 9. */
  @Test
  void countsInLogOdds() {
    assertThat(LearnedCertainty.logOdds(0.9)).isCloseTo(Math.log(9), within(1e-12));
    assertThat(LearnedCertainty.logOdds(0.1)).isCloseTo(-Math.log(9), within(1e-12));
    assertThat(LearnedCertainty.logOdds(1)).isCloseTo(Math.log(999), within(1e-12));
    assertThat(LearnedCertainty.logOdds(1.001)).isCloseTo(Math.log(999), within(1e-12));
  }

  @Test
  void whatADecoderSaidCanBeFoundBehindWhatIsStated() {
    for (double said : new double[] {0.02, 0.5, 0.8, 0.99}) {
      double stated = KEYS.of(LearnedCertainty.logOdds(said));
      assertThat(stated).isBetween(0.0, 1.0);
      assertThat(KEYS.behind(stated)).isCloseTo(LearnedCertainty.logOdds(said), within(1e-9));
    }
  }

  @Test
  void aSurerDecoderIsNeverStatedLessSure() {
    for (String facet : List.of("bass", "keys")) {
      LearnedCertainty sure = LearnedCertainty.of(facet, POSTERIOR);
      assertThat(sure.of(LearnedCertainty.logOdds(0.9)))
          .isGreaterThan(sure.of(LearnedCertainty.logOdds(0.6)));
    }
  }

  @Test
  void refusesWeightsOfOtherEvidence() {
    assertThatThrownBy(() -> LearnedCertainty.of("keys", List.of("loudness")))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("loudness")
        .hasMessageContaining("posterior");
    assertThatThrownBy(() -> LearnedCertainty.of("nothing", POSTERIOR))
        .hasMessageContaining("nothing");
  }
}
