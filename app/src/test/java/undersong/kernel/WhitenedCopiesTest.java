package undersong.kernel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.audio.AudioReader;
import undersong.feature.FeatureExtractor;
import undersong.feature.FrameMatrix;
import undersong.work.Cancellation;
import undersong.work.Progress;

/** Copies made here under a loud held chord, and a tape echo recorded by others. */
final class WhitenedCopiesTest {
  private static final double RATE_HZ = 5512.5;
  private static final int STRETCH = 3300;
  private static final int LAGS = 6600;

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

  private int mostAlike() {
    int best = 900;
    for (int lag = 900; lag < LAGS - WhitenedCopies.reachBehind(); lag++) {
      best = likenesses[lag] > likenesses[best] ? lag : best;
    }
    return best;
  }

  @ParameterizedTest
  @ValueSource(ints = {1900, 2755, 4321})
  void aCopyStandsOutOfAMixToTheSample(int lag) {
    copies.take(mix(lag, 0.5), STRETCH);
    copies.all(likenesses);

    assertThat(mostAlike()).isCloseTo(lag, within(1));
    assertThat(WhitenedCopies.standsOut(likenesses, lag, 1)).isGreaterThan(5);
  }

  @Test
  void withoutACopyNothingStandsOut() {
    copies.take(mix(2755, 0), STRETCH);
    copies.all(likenesses);

    assertThat(WhitenedCopies.standsOut(likenesses, 2755, 1)).isLessThan(3);
  }

  @Test
  void theLevelOfACopyIsThatOfItsPartials() {
    float[] x = new float[STRETCH + LAGS];
    for (int n = 0; n < 1600; n++) {
      double fade = Math.min(1, Math.min(n, 1600 - n) / 100.0);
      double v = 0.1 * fade * Math.sin(2 * Math.PI * 440 * n / RATE_HZ);
      x[400 + n] += (float) v;
      x[400 + n + 2505] += (float) (0.4 * v);
    }
    copies.take(x, STRETCH);
    copies.gains(new double[] {440}, likenesses);
    float most = 0;
    for (int lag = 2501; lag <= 2509; lag++) {
      most = Math.max(most, likenesses[lag]);
    }

    assertThat(most).isCloseTo(0.4f, within(0.05f));
  }

  @Test
  void silenceIsLikeNothing() {
    copies.take(new float[STRETCH + LAGS], STRETCH);
    copies.all(likenesses);
    assertThat(WhitenedCopies.standsOut(likenesses, 2000, 2)).isZero();
    copies.gains(new double[] {440}, likenesses);
    assertThat(likenesses[2000]).isZero();
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
    String data = System.getenv("UNDERSONG_DATA");
    assumeTrue(data != null, "UNDERSONG_DATA is not set: the tape echo was not listened to");
    Path path = Path.of(data, "audio-egfxset-notes", file);
    FrameMatrix wave =
        new FeatureExtractor()
            .extract(
                AudioReader.probe(path, new Cancellation()), Progress.SILENT, new Cancellation())
            .image()
            .lowWave();
    float[] x = new float[STRETCH + LAGS];
    for (int n = 0; n < Math.min(x.length, wave.frames()); n++) {
      x[n] = wave.at(n, 0);
    }
    copies.take(x, (int) (0.15 * RATE_HZ));
    copies.all(likenesses);
    double most = 0;
    for (int lag = (int) (0.48 * RATE_HZ); lag < 0.52 * RATE_HZ; lag++) {
      most = Math.max(most, WhitenedCopies.standsOut(likenesses, lag, 0));
    }

    if (echoes) {
      assertThat(most).isGreaterThan(4.5);
    } else {
      assertThat(most).isLessThan(3);
    }
  }
}
