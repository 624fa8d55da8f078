package undersong.kernel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class HarmonicTemplatesTest {
  private static final double[] CENTERS_HZ = new double[264];

  static {
    for (int b = 0; b < CENTERS_HZ.length; b++) {
      CENTERS_HZ[b] = 27.5 * Math.pow(2, (b - 1) / 36.0);
    }
  }

  private static float[] template(double hertz, int partials) {
    return HarmonicTemplates.magnitudes(
        new double[] {hertz}, 0.5, partials, CENTERS_HZ, 16384, 22050)[0];
  }

  @Test
  void standsHighestAtTheFundamental() {
    float[] a4 = template(440, 8);
    for (float value : a4) {
      assertThat(value).isLessThanOrEqualTo(a4[145]);
    }
  }

  @Test
  void halvesTheAmplitudeAtTheSecondPartial() {
    float[] a3 = template(220, 2);
    float[] alone = template(440, 1);
    assertThat((double) a3[145]).isCloseTo(0.5 * alone[145], within(1e-3));
  }

  @Test
  void addsNothingAboveTheLastPartial() {
    float[] one = template(110, 1);
    for (int b = 100; b < one.length; b++) {
      assertThat(one[b]).isZero();
    }
  }
}
