package undersong.expectation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class ContextTreeTest {
  private static final String LETTERS = "abcdr";
  private static final double[] EVEN = {0.2, 0.2, 0.2, 0.2, 0.2};

  private static int[] before(String text, int at) {
    int[] context = new int[at];
    for (int i = 0; i < at; i++) {
      context[i] = LETTERS.indexOf(text.charAt(at - 1 - i));
    }
    return context;
  }

  private static ContextTree counted(String text, int longest) {
    ContextTree tree = new ContextTree();
    for (int i = 0; i < text.length(); i++) {
      tree.add(LETTERS.indexOf(text.charAt(i)), before(text, i), longest);
    }
    return tree;
  }

  /**
   * The counts after "abracadabra" are the worked example of J. Cleary and W. Teahan, "Unbounded
   * Length Contexts for PPM", The Computer Journal 40, 1997 (from memory): in context "ra" c 1,
   * escape 1; in "a" b 2, c 1, d 1, escape 3; alone a 5, b 2, c 1, d 1, r 2, escape 5. Interpolated
   * by hand: c = 1/2 + 1/2 (1/7 + 3/7 (1/16 + 5/16 1/5)) = 67/112.
   */
  @Test
  void followsTheWorkedExample() {
    double[] odds = counted("abracadabra", 2).predict(before("abracadabra", 11), EVEN, 1);
    assertThat(odds[LETTERS.indexOf('c')]).isEqualTo(67.0 / 112, within(1e-12));
    assertThat(Arrays.stream(odds).sum()).isEqualTo(1, within(1e-12));
  }

  @Test
  void expectsWhatTheBaseSaysWhereNothingWasCounted() {
    assertThat(new ContextTree().predict(new int[] {1, 2}, EVEN, 1)).isEqualTo(EVEN);
  }

  @Test
  void countsAContextOnceASongIfSoAsked() {
    ContextTree songs = new ContextTree();
    songs.addAll(counted("abababab", 1), 1);
    songs.addAll(counted("ac", 1), 1);
    assertThat(songs.longer().get(0).counted()).containsOnly(entry(1, 1), entry(2, 1));
  }

  private static java.util.Map.Entry<Integer, Integer> entry(int symbol, int count) {
    return java.util.Map.entry(symbol, count);
  }

  /** Entropies 0 and 1 bit: the sure opinion decides; equal opinions stay as they are. */
  @Test
  void weighsTheSurerOpinionMore() {
    double[] torn = {0.5, 0.5};
    double[] sure = {0.99, 0.01};
    assertThat(Odds.together(torn, sure, 1)[0]).isGreaterThan(Odds.together(torn, sure, 0)[0]);
    assertThat(Odds.together(torn, torn, 1)).containsExactly(torn, within(1e-12));
    assertThat(Odds.bits(0.125)).isEqualTo(3, within(1e-12));
  }
}
