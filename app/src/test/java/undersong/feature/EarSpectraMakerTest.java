package undersong.feature;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The spectra against their statement in training/FEATURES.md, worked out the slow way. */
final class EarSpectraMakerTest {
  private static final int CENTER = 8192;

  private static float[] music(long seed) {
    Random random = new Random(seed);
    float[] samples = new float[3 * CENTER];
    for (int partial = 0; partial < 30; partial++) {
      double hz = 30 * Math.pow(2, random.nextDouble() * 8);
      double amplitude = 0.05 * random.nextDouble();
      for (int n = 0; n < samples.length; n++) {
        samples[n] += (float) (amplitude * Math.sin(2 * Math.PI * hz * n / 22_050 + partial));
      }
    }
    for (int n = 0; n < samples.length; n++) {
      samples[n] += (float) (0.002 * random.nextGaussian());
    }
    return samples;
  }

  @ParameterizedTest
  @CsvSource({
    "16384, 27.5, 36, -1, 0",
    "8192, 27.5, 36, -1, 1",
    "4096, 27.5, 36, -1, 2",
    "2048, 55, 12, 0, 3"
  })
  void agreesWithTheFormula(int window, double lowestHz, int perOctave, int first, int plane) {
    float[] samples = music(window);
    EarSpectra spectra = new EarSpectraMaker().make(samples, CENTER, 0, 3);
    int frame = 2;
    float[] values = plane < 3 ? spectra.tonal()[plane] : spectra.rhythm();
    int bins = plane < 3 ? 264 : 90;
    double[] power = powerByDefinition(samples, CENTER + frame * 441 - window / 2, window);
    double df = 22_050.0 / window;

    for (int b = 0; b < bins; b++) {
      double c = lowestHz * Math.pow(2, (double) (b + first) / perOctave);
      double lo = Math.min(c * Math.pow(2, -1.0 / perOctave), c - df);
      double hi = Math.max(c * Math.pow(2, 1.0 / perOctave), c + df);
      double sum = 0;
      for (int k = 0; k < power.length; k++) {
        double w = Math.min((k * df - lo) / (c - lo), (hi - k * df) / (hi - c));
        sum += Math.max(0, w) * power[k];
      }
      assertThat((double) values[frame * bins + b])
          .as("bin %d", b)
          .isCloseTo(Math.log(1 + 1000 * Math.sqrt(sum)), within(1e-3));
    }
  }

  /** The discrete Fourier transform as a sum, with one turned pointer per bin. */
  private static double[] powerByDefinition(float[] samples, int from, int window) {
    double[] tapered = new double[window];
    double taper = 0;
    for (int n = 0; n < window; n++) {
      double h = 0.5 - 0.5 * Math.cos(2 * Math.PI * n / window);
      taper += h;
      tapered[n] = from + n >= 0 && from + n < samples.length ? samples[from + n] * h : 0;
    }
    double[] cosine = new double[window];
    for (int n = 0; n < window; n++) {
      cosine[n] = Math.cos(2 * Math.PI * n / window);
    }
    double[] power = new double[window / 2 + 1];
    for (int k = 0; k < power.length; k++) {
      double re = 0;
      double im = 0;
      int turn = 0;
      for (int n = 0; n < window; n++) {
        re += tapered[n] * cosine[turn];
        im += tapered[n] * cosine[(turn + 3 * window / 4) & (window - 1)];
        turn = (turn + k) & (window - 1);
      }
      power[k] = (re * re + im * im) * (2 / taper) * (2 / taper);
    }
    return power;
  }

  @Test
  void silenceIsZero() {
    EarSpectra spectra = new EarSpectraMaker().make(new float[2 * CENTER], CENTER, 0, 2);

    assertThat(spectra.tonal()[0]).containsOnly(0);
    assertThat(spectra.rhythm()).containsOnly(0);
  }
}
