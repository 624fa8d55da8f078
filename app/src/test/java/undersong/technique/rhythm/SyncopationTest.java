package undersong.technique.rhythm;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Weights and sums as Longuet-Higgins and Lee 1984 define them; worked by hand. */
class SyncopationTest {
  @Test
  void weighsTheEighthsOfABar() {
    assertThat(Syncopation.weights(4, 2)).containsExactly(0, -3, -2, -3, -1, -3, -2, -3);
    assertThat(Syncopation.weights(3, 2)).containsExactly(0, -2, -1, -2, -1, -2);
    assertThat(Syncopation.weights(2, 3)).containsExactly(0, -2, -2, -1, -2, -2);
  }

  @ParameterizedTest
  @CsvSource({
    // On the beat nothing leans.
    "x.x.x.x., true, 0",
    "x......., true, 0",
    // The fourth eighth (-3) before the silent middle of the bar (-1).
    "x..x..x., true, 2",
    // The last eighth (-3) before a silent bar line (0).
    "x......x, false, 3",
    "x......x, true, 0",
    // Both halves of a clave-like bar: -3 before -1, and -3 before -2.
    "x..x.x.., true, 3",
  })
  void addsWhatLeans(String rhythm, boolean nextBegins, int syncopation) {
    boolean[] onsets = new boolean[rhythm.length()];
    for (int i = 0; i < onsets.length; i++) {
      onsets[i] = rhythm.charAt(i) == 'x';
    }
    assertThat(Syncopation.ofBar(onsets, nextBegins, Syncopation.weights(4, 2)))
        .isEqualTo(syncopation);
  }
}
