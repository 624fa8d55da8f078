package undersong.kernel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Sums that are drawn, so that their weights are known. */
class GrowingErrorFitTest {
  private static final int SAMPLES = 4000;

  private static double[][] parts(int count) {
    Random random = new Random(5);
    double[][] parts = new double[count][SAMPLES];
    for (double[] part : parts) {
      Arrays.setAll(part, t -> Math.exp(2 * random.nextGaussian()));
    }
    return parts;
  }

  private static double[] ones() {
    double[] ones = new double[SAMPLES];
    Arrays.fill(ones, 1);
    return ones;
  }

  @Test
  void aSumIsTakenApart() {
    double[][] parts = parts(3);
    double[] whole = new double[SAMPLES];
    Arrays.setAll(whole, t -> 0.5 * parts[0][t] + 2 * parts[2][t]);

    GrowingErrorFit.Fit fit = GrowingErrorFit.of(parts, whole, ones());

    assertThat(fit.weights().get(0)).isCloseTo(0.5, within(1e-6));
    assertThat(fit.weights().get(1)).isCloseTo(0, within(1e-6));
    assertThat(fit.weights().get(2)).isCloseTo(2, within(1e-6));
    assertThat(fit.deviance()).isCloseTo(0, within(1e-6));
  }

  /** Each value times an exponential variable: what a power is that noise has (chi square, 2). */
  @Test
  void errorsThatGrowWithTheSignalDoNotMislead() {
    double[][] parts = parts(2);
    Random random = new Random(6);
    double[] whole = new double[SAMPLES];
    Arrays.setAll(
        whole, t -> (0.3 * parts[0][t] + parts[1][t]) * -Math.log(1 - random.nextDouble()) + 1e-12);

    GrowingErrorFit.Fit fit = GrowingErrorFit.of(parts, whole, ones());

    assertThat(fit.weights().get(0)).isCloseTo(0.3, within(0.05));
    assertThat(fit.weights().get(1)).isCloseTo(1, within(0.1));
    // The mean of x - ln x - 1 for an exponential x is Euler's constant.
    assertThat(fit.deviance() / SAMPLES).isCloseTo(0.5772, within(0.05));
  }

  @Test
  void noWeightIsBelowZero() {
    double[][] parts = parts(2);
    double[] whole = new double[SAMPLES];
    Arrays.setAll(whole, t -> 3 / (1 + parts[0][t]) + 0.001);

    assertThat(GrowingErrorFit.of(parts, whole, ones()).weights())
        .allSatisfy(weight -> assertThat(weight).isNotNegative());
  }

  @Test
  void partsThatAreAllAlikeShareNothingTwice() {
    double[][] parts = {ones(), ones()};
    double[] whole = new double[SAMPLES];
    Arrays.fill(whole, 4);

    List<Double> weights = GrowingErrorFit.of(parts, whole, ones()).weights();

    assertThat(weights.get(0) + weights.get(1)).isCloseTo(4, within(1e-6));
  }
}
