package undersong.kernel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Against the definition: every path of a short chain written out and summed. */
class ChangeChainTest {
  private static final int STEPS = 5;
  private static final int STATES = 4;
  private static final int[] GROUPS = {0, 0, 1, 2};

  private final float[][] emission = new float[STEPS][STATES];
  private final float[][] enter = new float[STEPS][STATES];
  private final float[] change = new float[STEPS];
  private final float[][] motion = new float[3][3];

  private void fill(long seed) {
    Random random = new Random(seed);
    for (int t = 0; t < STEPS; t++) {
      change[t] = (float) Math.log(0.1 + 0.5 * random.nextDouble());
      for (int s = 0; s < STATES; s++) {
        emission[t][s] = (float) random.nextGaussian();
        enter[t][s] = (float) (0.5 * random.nextGaussian());
      }
    }
    for (float[] row : motion) {
      for (int g = 0; g < row.length; g++) {
        row[g] = (float) (0.5 * random.nextGaussian());
      }
    }
  }

  /** Scores of the two ways to come from one state to the next: to change, or to stay. */
  private double[] ways(int t, int from, int to) {
    double changed = change[t] + motion[GROUPS[from]][GROUPS[to]] + enter[t][to];
    double stayed = from == to ? Math.log1p(-Math.exp(change[t])) : Double.NEGATIVE_INFINITY;
    return new double[] {changed, stayed};
  }

  private int stateOf(int path, int t) {
    return path / (int) Math.pow(STATES, t) % STATES;
  }

  private double score(int path, boolean best) {
    double score = emission[0][stateOf(path, 0)] + enter[0][stateOf(path, 0)];
    for (int t = 1; t < STEPS; t++) {
      double[] ways = ways(t, stateOf(path, t - 1), stateOf(path, t));
      score +=
          emission[t][stateOf(path, t)]
              + (best
                  ? Math.max(ways[0], ways[1])
                  : Math.log(Math.exp(ways[0]) + Math.exp(ways[1])));
    }
    return score;
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void findsTheLikeliestPath(long seed) {
    fill(seed);
    int best = 0;
    for (int path = 1; path < Math.pow(STATES, STEPS); path++) {
      best = score(path, true) > score(best, true) ? path : best;
    }
    int[] found = new ChangeChain(GROUPS, motion).path(emission, enter, change);
    for (int t = 0; t < STEPS; t++) {
      assertThat(found[t]).isEqualTo(stateOf(best, t));
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void weighsEveryPath(long seed) {
    fill(seed);
    double[][] sums = new double[STEPS][STATES];
    double total = 0;
    for (int path = 0; path < Math.pow(STATES, STEPS); path++) {
      double likelihood = Math.exp(score(path, false));
      total += likelihood;
      for (int t = 0; t < STEPS; t++) {
        sums[t][stateOf(path, t)] += likelihood;
      }
    }
    float[][] found = new ChangeChain(GROUPS, motion).posteriors(emission, enter, change);
    for (int t = 0; t < STEPS; t++) {
      for (int s = 0; s < STATES; s++) {
        assertThat((double) found[t][s]).isCloseTo(sums[t][s] / total, within(1e-4));
      }
    }
  }

  @Test
  void answersNothingWithNothing() {
    ChangeChain chain = new ChangeChain(GROUPS, motion);
    assertThat(chain.path(new float[0][], new float[0][], new float[0])).isEmpty();
    assertThat(chain.posteriors(new float[0][], new float[0][], new float[0])).isEmpty();
  }
}
