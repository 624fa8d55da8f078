package undersong.estimate.beat;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import undersong.feature.FrameMatrix;
import undersong.time.FrameClock;

/** Ten frames a second, levels of the whole in the last of seven bins. */
class SoundingExtentTest {
  private static final FrameClock AT_10 = new FrameClock(22050, 2205);

  private static SoundingExtent extent(float... levelsDb) {
    float[] values = new float[levelsDb.length * 7];
    for (int i = 0; i < levelsDb.length; i++) {
      Arrays.fill(values, i * 7, i * 7 + 7, levelsDb[i]);
    }
    return SoundingExtent.of(FrameMatrix.of(AT_10, 7, values), AT_10, levelsDb.length);
  }

  private static float[] levels(float edgeDb, int edge, float musicDb, int music) {
    float[] levels = new float[2 * edge + music];
    Arrays.fill(levels, edgeDb);
    Arrays.fill(levels, edge, edge + music, musicDb);
    return levels;
  }

  @Test
  void leavesSilenceOut() {
    SoundingExtent extent = extent(levels(-120, 5, -12, 20));
    assertThat(extent.from()).isBetween(4, 5);
    assertThat(extent.to()).isBetween(25, 26);
  }

  /** Hiss of a tape lies some 40 to 60 dB under the music (common practice, no source). */
  @Test
  void takesTheHissOfATapeForSilence() {
    float[] levels = levels(-52, 5, -12, 20);
    levels[2] = -49;
    levels[27] = -54;
    SoundingExtent extent = extent(levels);
    assertThat(extent.from()).isBetween(4, 5);
    assertThat(extent.to()).isBetween(25, 26);
  }

  @Test
  void keepsAQuietBeginning() {
    assertThat(extent(levels(-38, 5, -12, 20)).from()).isZero();
  }

  @Test
  void isEmptyInSilence() {
    assertThat(extent(levels(-120, 5, -120, 5)).length()).isZero();
    assertThat(extent().length()).isZero();
  }
}
