package undersong.kernel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class NonNegativeFitTest {
  private static final float[][] TEMPLATES = {
    {1, 0, 0.5f, 0, 0.2f}, {0, 1, 0, 0.5f, 0}, {0, 0, 1, 0, 0.5f}
  };

  @Test
  void takesASumOfTemplatesApart() {
    float[] spectrum = new float[5];
    float[] wanted = {2, 0.5f, 1};
    for (int i = 0; i < 3; i++) {
      for (int b = 0; b < 5; b++) {
        spectrum[b] += wanted[i] * TEMPLATES[i][b];
      }
    }
    float[] weights = new float[3];
    NonNegativeFit.fit(TEMPLATES, NonNegativeFit.gram(TEMPLATES), spectrum, 0, 500, weights);
    for (int i = 0; i < 3; i++) {
      assertThat(weights[i]).isCloseTo(wanted[i], within(1e-3f));
    }
  }

  @Test
  void explainsSilenceByNothing() {
    float[] weights = new float[3];
    NonNegativeFit.fit(TEMPLATES, NonNegativeFit.gram(TEMPLATES), new float[5], 0, 20, weights);
    assertThat(weights).containsOnly(0);
  }
}
