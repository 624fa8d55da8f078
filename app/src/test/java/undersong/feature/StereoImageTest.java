package undersong.feature;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

final class StereoImageTest {
  private static final int RATE = 44_100;

  /** What a channel holds at a time. */
  private interface Wave {
    double at(double seconds, int channel);
  }

  private static StereoImage image(double seconds, Wave wave) {
    StereoImageMeter meter = new StereoImageMeter();
    int frames = (int) (seconds * RATE);
    float[] block = new float[2 * frames];
    for (int i = 0; i < block.length; i++) {
      block[i] = (float) wave.at((i - i % 2) / 2.0 / RATE, i % 2);
    }
    meter.accept(block, frames);
    meter.finish();
    return meter.read();
  }

  /**
   * C. Avendano, "Frequency-domain source identification and manipulation in stereo mixes", WASPAA
   * 2003: similarity 2 |X1 X2*| / (|X1|^2 + |X2|^2), which is sin(2 a) for the gains cos a, sin a
   * of a constant-power pan (definition from memory; the closed form follows from it).
   */
  @ParameterizedTest
  @ValueSource(doubles = {-1, -0.7, -0.3, 0, 0.2, 0.5, 1})
  void aConstantPowerPanHasTheSimilarityThatTheDefinitionGives(double pan) {
    double angle = (pan + 1) * Math.PI / 4;
    double[] gains = {Math.cos(angle), Math.sin(angle)};
    StereoImage image = image(1, (t, c) -> gains[c] * 0.2 * Math.sin(2 * Math.PI * 1000 * t));
    int frame = StereoImage.CLOCK.frameAt(0.5);
    int bin = StereoImage.binOf(1000);

    assertThat((double) image.likeness().at(frame, bin))
        .isCloseTo(Math.sin(2 * angle), within(1e-3));
    assertThat((double) image.balance().at(frame, bin))
        .isCloseTo(-Math.cos(2 * angle), within(1e-3));
    // RMS of the sine is 0.1414; half of its power in the mean of the channels.
    assertThat((double) image.levelDb().at(frame, bin))
        .isCloseTo(20 * Math.log10(0.2 / Math.sqrt(2)) - 3.01, within(0.1));
  }

  @Test
  void channelsWithNothingInCommonAreUnlikeAndOppositeOnesCancel() {
    Random random = new Random(3);
    StereoImage noise = image(2, (t, c) -> 0.1 * random.nextGaussian());
    StereoImage opposite = image(1, (t, c) -> (c == 0 ? 0.1 : -0.1) * Math.sin(3000 * t));
    int bin = StereoImage.binOf(5000);
    double mean = 0;
    for (int frame = 5; frame < 45; frame++) {
      mean += noise.likeness().at(frame, bin) / 40;
    }

    assertThat(mean).isCloseTo(0, within(0.1));
    assertThat((double) opposite.likeness().at(12, StereoImage.binOf(3000 / 2 / Math.PI)))
        .isCloseTo(-1, within(1e-3));
  }

  @Test
  void quickLevelsShowAStrokeWithinOneFrame() {
    StereoImage image =
        image(1, (t, c) -> t < 0.4 || c == 1 ? 0 : 0.3 * Math.sin(2 * Math.PI * 3000 * t));
    FrameMatrix quick = image.quickLevelsDb();
    int band = 5; // 2 to 4 kHz
    int before = quick.clock().frameAt(0.385);
    int after = quick.clock().frameAt(0.415);

    assertThat(StereoImage.quickEdgeHz(band)).isEqualTo(2000);
    assertThat(quick.at(before, band)).isLessThan(-60);
    assertThat((double) quick.at(after, band))
        .isCloseTo(20 * Math.log10(0.3 / Math.sqrt(2)), within(0.3));
    assertThat(quick.at(after, StereoImage.QUICK_BANDS + band)).isEqualTo(-120);
  }

  @Test
  void silenceStandsInTheMiddle() {
    StereoImage image = image(0.5, (t, c) -> 0);

    assertThat(image.levelDb().at(5, 40)).isEqualTo(-120);
    assertThat((double) image.balance().at(5, 40)).isCloseTo(0, within(1e-6));
    assertThat((double) image.likeness().at(5, 40)).isCloseTo(1, within(1e-4));
    assertThat(image.frames()).isEqualTo((int) Math.ceil(0.5 * 25));
  }

  @Test
  void everyFrequencyLiesBetweenTheEdgesOfItsBin() {
    for (int bin = 0; bin < StereoImage.BINS; bin++) {
      double middle = Math.sqrt(StereoImage.edgeHz(bin) * StereoImage.edgeHz(bin + 1));
      assertThat(StereoImage.binOf(middle)).isEqualTo(bin);
    }
  }
}
