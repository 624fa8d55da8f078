package undersong.estimate.echo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.time.Span;

/**
 * Powers and cross powers of signals that are drawn, not played: a cell of a source that is panned
 * has one component, a cell of noise that has nothing in common between the sides has two equal
 * ones (the algebra of two by two covariances).
 */
class AmbienceTest {
  private static final int FRAMES = 250;
  private static final Span WHOLE = new Span(0, 10);

  /**
   * @param wet power of what is unlike in both channels, against a source of power 1
   * @param placement of the source, -1 to 1
   */
  static StereoPowers powers(double wet, double placement) {
    float[] level = new float[FRAMES * StereoImage.BINS];
    float[] balance = new float[level.length];
    float[] likeness = new float[level.length];
    double angle = (placement + 1) * Math.PI / 4;
    Random random = new Random(1);
    for (int i = 0; i < level.length; i++) {
      double gain = Math.exp(random.nextGaussian() / 2);
      double left = 2 * gain * Math.pow(Math.cos(angle), 2) + wet;
      double right = 2 * gain * Math.pow(Math.sin(angle), 2) + wet;
      double cross = 2 * gain * Math.cos(angle) * Math.sin(angle);
      level[i] = (float) (10 * Math.log10((left + right) / 2) - 40);
      balance[i] = (float) ((right - left) / (right + left));
      likeness[i] = (float) (2 * cross / (left + right));
    }
    return DrawnRoom.powers(level, balance, likeness);
  }

  private static double level(double wet, double placement) {
    return new Ambience(powers(wet, placement)).levelAndWander(WHOLE)[0];
  }

  @Test
  void whatStandsNowhereIsMeasuredWhereverTheSourceStands() {
    double middle = level(0.1, 0);

    assertThat(level(0.1, 0.6)).isCloseTo(middle, within(0.7));
    assertThat(level(0.2, 0)).isCloseTo(middle + 3, within(0.4));
    assertThat(level(0.01, 0)).isCloseTo(middle - 10, within(0.7));
  }
}
