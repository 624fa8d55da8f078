package undersong.estimate.beat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * Which of several hypotheses is the tapped pulse: a conditional logit over {@link LevelTraits}
 * (McFadden 1974), its weights fitted on songs rendered for the purpose; the softmax of the
 * weighted sums is the probability of each.
 */
final class LevelChoice {
  private static final double[] WEIGHTS = load();

  private LevelChoice() {}

  /**
   * @param more log-odds from elsewhere, one a hypothesis
   * @return one probability a hypothesis, adding up to 1
   */
  static double[] probabilities(List<double[]> traits, double[] more) {
    double[] values = more.clone();
    double largest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < values.length; i++) {
      values[i] += worth(traits.get(i));
      largest = Math.max(largest, values[i]);
    }
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      values[i] = Math.exp(values[i] - largest);
      sum += values[i];
    }
    for (int i = 0; i < values.length; i++) {
      values[i] /= sum;
    }
    return values;
  }

  /** What the strokes say for one hypothesis, in log-odds. */
  static double worth(double[] traits) {
    double sum = 0;
    for (int k = 0; k < LevelTraits.COUNT; k++) {
      sum += WEIGHTS[k] * traits[k];
    }
    return sum;
  }

  private static double[] load() {
    try (InputStream in = LevelChoice.class.getResourceAsStream("level-weights.txt")) {
      double[] weights =
          new String(in.readAllBytes(), StandardCharsets.US_ASCII)
              .lines()
              .filter(line -> !line.isBlank() && !line.startsWith("#"))
              .mapToDouble(Double::parseDouble)
              .toArray();
      if (weights.length != LevelTraits.COUNT) {
        throw new IllegalStateException(
            "level-weights.txt holds %d weights, there are %d traits."
                .formatted(weights.length, LevelTraits.COUNT));
      }
      return weights;
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }
}
