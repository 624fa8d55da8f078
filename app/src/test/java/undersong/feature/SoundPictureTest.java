package undersong.feature;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

class SoundPictureTest {
  private static final int RATE_HZ = 44_100;
  private static final double DECIBELS_A_LEVEL = SoundPicture.RANGE_DB / 255;

  private final SoundPicture picture = new SoundPicture(RATE_HZ);

  @Test
  void fullScaleSineIsWhiteAtItsPitchAndNowhereElse() {
    float[] a4 = new float[RATE_HZ];
    for (int n = 0; n < a4.length; n++) {
      a4[n] = (float) Math.sin(2 * Math.PI * 440 * n / RATE_HZ);
    }
    byte[] points = picture.draw(a4, RATE_HZ / 4.0, 3 * RATE_HZ / 4.0, 50);
    // ISO 16: A4 is 440 Hz.
    assertThat(level(points, 50, 69, 25)).isGreaterThanOrEqualTo(254);
    assertThat(level(points, 50, 81, 25)).isLessThan(60);
    assertThat(level(points, 50, 57, 25)).isLessThan(60);
  }

  @Test
  void silenceIsBlack() {
    assertThat(picture.draw(new float[RATE_HZ], 0, RATE_HZ, 20)).containsOnly(0);
  }

  /** Columns that lie close are interpolated; a column alone is looked at where it stands. */
  @Test
  void closeColumnsShowWhatEachWouldShowAlone() {
    float[] strokes = strokes();
    int columns = 900;
    double from = 0.5 * RATE_HZ;
    double to = 2.5 * RATE_HZ;
    byte[] close = picture.draw(strokes, from, to, columns);
    double largest = 0;
    double sum = 0;
    int count = 0;
    for (int column = 3; column < columns; column += 29) {
      double middle = from + (column + 0.5) * (to - from) / columns;
      byte[] alone = picture.draw(strokes, middle - 2048, middle + 2048, 1);
      for (int row = 0; row < SoundPicture.ROWS; row++) {
        int exact = alone[row] & 0xff;
        if (exact >= 100) { // some 60 dB below full scale: what can be told from black
          double off = DECIBELS_A_LEVEL * Math.abs(exact - (close[row * columns + column] & 0xff));
          largest = Math.max(largest, off);
          sum += off;
          count++;
        }
      }
    }
    assertThat(count).isGreaterThan(1000);
    assertThat(sum / count).isLessThan(0.5);
    assertThat(largest).isLessThan(6);
  }

  private static int level(byte[] points, int columns, int midi, int column) {
    int row = (midi - SoundPicture.LOWEST_MIDI) * SoundPicture.ROWS_PER_SEMITONE;
    return points[(SoundPicture.ROWS - 1 - row) * columns + column] & 0xff;
  }

  /** Plucked harmonic tones and a stroke of noise every quarter of a second. */
  private static float[] strokes() {
    Random random = new Random(7);
    float[] samples = new float[3 * RATE_HZ];
    for (int stroke = 0; stroke < 11; stroke++) {
      int start = stroke * RATE_HZ / 4;
      double hertz = 55 * Math.pow(2, random.nextInt(36) / 12.0);
      for (int n = 0; n < RATE_HZ / 4; n++) {
        double tone = 0;
        for (int k = 1; k <= 8; k++) {
          tone += Math.sin(2 * Math.PI * k * hertz * n / RATE_HZ) / k;
        }
        double noise = n < 900 ? random.nextGaussian() * 0.2 : 0;
        samples[start + n] += (float) (0.25 * tone * Math.exp(-4.0 * n / RATE_HZ) + noise);
      }
    }
    return samples;
  }
}
