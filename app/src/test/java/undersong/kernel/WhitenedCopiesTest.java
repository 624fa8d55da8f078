package undersong.kernel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Copies made here under a loud held chord, and a tape echo recorded by others. */
final class WhitenedCopiesTest {
  private static final double RATE_HZ = 5512.5;
  private static final int STRETCH = 3300;
  private static final int LAGS = 6600;
  private static final int CHANCE_FROM = 60;
  private static final int CHANCE_TO = 330;

  private final WhitenedCopies copies = new WhitenedCopies(RATE_HZ);
  private final float[] likenesses = new float[LAGS];

  /** A voice that wanders, its copy after a lag, and three held tones ten times as loud. */
  private static float[] mix(int lag, double gain) {
    Random random = new Random(4);
    float[] x = new float[STRETCH + LAGS];
    double phase = 0;
    double drift = 0;
    for (int n = 0; n < 1800; n++) {
      drift = 0.999 * drift + 0.0015 * random.nextGaussian();
      phase += 220 * (1 + drift) / RATE_HZ;
      double fade = Math.min(1, Math.min(n, 1800 - n) / 100.0);
      for (int partial = 1; partial <= 10; partial++) {
        double v = 0.05 * fade * Math.sin(2 * Math.PI * partial * phase) / partial;
        x[800 + n] += (float) v;
        x[800 + n + lag] += (float) (gain * v);
      }
    }
    for (int n = 0; n < x.length; n++) {
      for (double hertz : new double[] {98, 196.5, 247.2}) {
        x[n] += (float) (0.3 * Math.sin(2 * Math.PI * hertz * n / RATE_HZ));
      }
      x[n] += (float) (1e-4 * random.nextGaussian());
    }
    return x;
  }

  /** How far the best likeness near a lag stands out from those some way off; about 1 by chance. */
  private double standsOut(int lag, int reach) {
    float best = 0;
    for (int i = lag - reach; i <= lag + reach; i++) {
      best = Math.max(best, likenesses[i]);
    }
    double squares = 0;
    for (int away = CHANCE_FROM; away < CHANCE_TO; away++) {
      for (int i : new int[] {lag - away, lag + away}) {
        squares += likenesses[i] * likenesses[i] / (2.0 * (CHANCE_TO - CHANCE_FROM));
      }
    }
    return squares > 0 ? best / Math.sqrt(squares) : 0;
  }

  private int mostAlike() {
    int best = 900;
    for (int lag = 900; lag < LAGS - CHANCE_TO; lag++) {
      best = likenesses[lag] > likenesses[best] ? lag : best;
    }
    return best;
  }

  @ParameterizedTest
  @ValueSource(ints = {1900, 2755, 4321})
  void aCopyStandsOutOfAMixToTheSample(int lag) {
    copies.compare(mix(lag, 0.5), STRETCH, likenesses);

    assertThat(mostAlike()).isCloseTo(lag, within(1));
    assertThat(standsOut(lag, 1)).isGreaterThan(5);
  }

  @Test
  void withoutACopyNothingStandsOut() {
    copies.compare(mix(2755, 0), STRETCH, likenesses);

    assertThat(standsOut(2755, 1)).isLessThan(3);
  }

  @Test
  void silenceIsLikeNothing() {
    copies.compare(new float[STRETCH + LAGS], STRETCH, likenesses);
    assertThat(standsOut(2000, 2)).isZero();
  }

  /**
   * Source: EGFxSet (Pedroza, Meza, Roman 2022), whose table gives the delay as half a second; the
   * pedal imitates a tape, so the lag is looked for within 20 ms. The strings ring on under the
   * echo: only the pluck itself is compared.
   */
  @ParameterizedTest
  @CsvSource({
    "TapeEcho/Bridge-Middle/1-0.wav, true",
    "TapeEcho/Bridge/2-0.wav, true",
    "Clean/Middle/6-22.wav, false"
  })
  void aTapeEchoIsHeardOnAGuitarAndNoneWithoutIt(String file, boolean echoes) {
    float[] x = TapeEchoNotes.lowWave(file, STRETCH + LAGS);
    copies.compare(x, (int) (0.15 * RATE_HZ), likenesses);
    double most = 0;
    for (int lag = (int) (0.48 * RATE_HZ); lag < 0.52 * RATE_HZ; lag++) {
      most = Math.max(most, standsOut(lag, 0));
    }

    if (echoes) {
      assertThat(most).isGreaterThan(4.5);
    } else {
      assertThat(most).isLessThan(3);
    }
  }
}
