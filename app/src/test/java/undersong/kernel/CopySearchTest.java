package undersong.kernel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Copies made here, and a tape echo recorded by others. */
final class CopySearchTest {
  private static final double RATE_HZ = 5512.5;
  private static final int NOTE = 1500;
  private static final int LAGS = 6000;

  private final float[] gains = new float[LAGS];
  private final float[] likenesses = new float[LAGS];

  /** A voice: eight partials that wander together by chance. */
  private static float[] voice(double hertz, long seed) {
    Random random = new Random(seed);
    float[] x = new float[NOTE + LAGS];
    double phase = random.nextDouble();
    double drift = 0;
    for (int n = 0; n < NOTE; n++) {
      drift = 0.999 * drift + 0.0008 * random.nextGaussian();
      phase += hertz * (1 + drift) / RATE_HZ;
      double fade = Math.min(1, Math.min(n, NOTE - n) / 100.0);
      for (int partial = 1; partial <= 8 && partial * hertz < 2500; partial++) {
        x[n] += (float) (0.1 * fade * Math.sin(2 * Math.PI * partial * phase) / partial);
      }
    }
    return x;
  }

  private static void add(float[] x, float[] sound, int lag, double gain) {
    for (int n = x.length - 1; n >= lag; n--) {
      x[n] += (float) (gain * sound[n - lag]);
    }
  }

  /**
   * The lag of the strongest copy that is stronger than all within 25 ms about it; 0 where none is.
   * A string that rings on is like itself at every lag, but without such peaks.
   */
  private int mostAlike(int from) {
    int best = 0;
    int reach = (int) (0.025 * RATE_HZ);
    for (int lag = from; lag < LAGS - reach; lag++) {
      boolean peak = likenesses[lag] > 0.4;
      for (int i = lag - reach; peak && i <= lag + reach; i++) {
        peak = gains[lag] >= gains[i];
      }
      best = peak && (best == 0 || gains[lag] > gains[best]) ? lag : best;
    }
    return best;
  }

  @ParameterizedTest
  @CsvSource({"220, 2000, 0.5", "147, 3100, 0.3", "392, 4321, 0.7"})
  void aCopyIsFoundToTheSampleWithItsLevel(double hertz, int lag, double gain) {
    float[] voice = voice(hertz, 1);
    float[] x = voice.clone();
    add(x, voice, lag, gain);
    add(x, voice(hertz * 1.33, 2), lag + 300, 1);
    new CopySearch(RATE_HZ).compare(x, NOTE, hertz, gains, likenesses);

    assertThat(mostAlike(NOTE)).isCloseTo(lag, within(1));
    assertThat(gains[lag]).isCloseTo((float) gain, within(0.06f));
    assertThat(likenesses[lag]).isGreaterThan(0.6f);
  }

  @Test
  void theSameNoteSungAgainIsNoCopy() {
    float[] x = voice(220, 1);
    add(x, voice(220, 7), 3000, 0.7);
    new CopySearch(RATE_HZ).compare(x, NOTE, 220, gains, likenesses);

    for (int lag = NOTE; lag < LAGS; lag++) {
      assertThat(gains[lag]).isLessThan(0.5f); // a copy would stand at 0.7
    }
  }

  @Test
  void silenceIsLikeNothing() {
    new CopySearch(RATE_HZ).compare(new float[NOTE + LAGS], NOTE, 220, gains, likenesses);

    assertThat(gains).containsOnly(0);
    assertThat(likenesses).containsOnly(0);
  }

  /** Source: {@link TapeEchoNotes}. */
  @ParameterizedTest
  @CsvSource({
    "TapeEcho/Bridge-Middle/1-0.wav, 64, true",
    "TapeEcho/Bridge/2-0.wav, 59, true",
    "Clean/Middle/6-22.wav, 62, false"
  })
  void aTapeEchoIsHeardOnAGuitarAndNoneWithoutIt(String file, int midiPitch, boolean echoes) {
    float[] x = TapeEchoNotes.lowWave(file, NOTE + LAGS);
    double hertz = 440 * Math.pow(2, (midiPitch - 69) / 12.0);
    new CopySearch(RATE_HZ).compare(x, (int) (0.13 * RATE_HZ), hertz, gains, likenesses);
    int best = mostAlike((int) (0.25 * RATE_HZ));

    assertThat(best / RATE_HZ).isCloseTo(echoes ? 0.5 : 0, within(0.02));
  }
}
