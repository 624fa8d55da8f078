package undersong.feature;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;

/**
 * The signal by which features and model are compared with training/golden.py, made from the same
 * formula, and the values found there.
 */
public final class GoldenSignal {
  private static final int RATE_HZ = 22_050;

  private GoldenSignal() {}

  /** The values that Python wrote. */
  public static JsonNode values() {
    try (InputStream file = GoldenSignal.class.getResourceAsStream("/ear/golden.json")) {
      return new ObjectMapper().readTree(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Eight chords of decaying harmonics, one a second, and noise of a congruential generator. */
  public static float[] samples() {
    JsonNode chords = values().path("signal").path("chords");
    int seconds = values().path("signal").path("seconds").asInt();
    double[] sum = new double[seconds * RATE_HZ];
    for (int chord = 0; chord < seconds; chord++) {
      for (JsonNode pitch : chords.get(chord % chords.size())) {
        double hertz = 440 * Math.pow(2, (pitch.asInt() - 69) / 12.0);
        for (int n = 0; n < RATE_HZ; n++) {
          double t = (double) n / RATE_HZ;
          double tone = 0;
          for (int h = 1; h <= 5; h++) {
            tone += Math.sin(2 * Math.PI * hertz * h * t) / h;
          }
          sum[chord * RATE_HZ + n] += 0.05 * Math.exp(-3 * t) * tone;
        }
      }
    }
    float[] samples = new float[sum.length];
    long state = 1;
    for (int n = 0; n < sum.length; n++) {
      state = (1_103_515_245L * state + 12_345) % (1L << 31);
      samples[n] = (float) (sum[n] + 0.002 * (state / (double) (1 << 30) - 1));
    }
    return samples;
  }

  /** Spectra of the signal at RMS 0.1. */
  public static EarSpectra spectra() {
    float[] samples = samples();
    double power = 0;
    for (float sample : samples) {
      power += (double) sample * sample;
    }
    float gain = (float) (0.1 / (Math.sqrt(power / samples.length) + 1e-5));
    int reach = EarSpectraMaker.LONGEST_WINDOW / 2;
    float[] padded = new float[samples.length + 2 * reach];
    for (int n = 0; n < samples.length; n++) {
      padded[reach + n] = gain * samples[n];
    }
    int frames = samples.length / EarSpectraMaker.HOP_SAMPLES;
    return new EarSpectraMaker().make(padded, reach, 0, frames);
  }
}
