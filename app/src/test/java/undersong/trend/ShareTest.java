package undersong.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ShareTest {
  /**
   * The four worked examples of R. G. Newcombe, "Two-sided Confidence Intervals for the Single
   * Proportion", Statistics in Medicine 17, 1998, Table I, method 3 (values from memory).
   */
  @ParameterizedTest
  @CsvSource({
    "81, 263, 0.2553, 0.3662",
    "15, 148, 0.0624, 0.1605",
    "0, 20, 0, 0.1611",
    "1, 29, 0.0061, 0.1718"
  })
  void theIntervalIsThePublishedOne(int songs, int of, double low, double high) {
    Share share = new Share(songs, of);
    assertThat(share.low()).isCloseTo(low, within(0.00005));
    assertThat(share.high()).isCloseTo(high, within(0.00005));
  }

  /**
   * Examples of R. G. Newcombe, "Interval Estimation for the Difference between Independent
   * Proportions", Statistics in Medicine 17, 1998, Table II, method 10 (values from memory).
   */
  @ParameterizedTest
  @CsvSource({
    "56, 70, 48, 80, 0.0524, 0.3339",
    "9, 10, 3, 10, 0.1705, 0.8090",
    "10, 10, 0, 10, 0.6075, 1"
  })
  void theDifferenceIsThePublishedOne(int a, int ofA, int b, int ofB, double low, double high) {
    Difference difference = Difference.between(new Share(a, ofA), new Share(b, ofB));
    assertThat(difference.low()).isCloseTo(low, within(0.00005));
    assertThat(difference.high()).isCloseTo(high, within(0.00005));
    assertThat(difference.isTold()).isTrue();
  }

  @Test
  void noSongsSayNothing() {
    Share none = new Share(0, 0);
    assertThat(none.value()).isZero();
    assertThat(none.low()).isZero();
    assertThat(none.high()).isEqualTo(1);
    assertThat(Difference.between(none, none).isTold()).isFalse();
    assertThatThrownBy(() -> new Share(3, 2)).hasMessageContaining("3 songs of 2");
  }
}
