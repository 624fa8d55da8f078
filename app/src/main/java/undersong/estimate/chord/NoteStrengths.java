package undersong.estimate.chord;

import java.util.Arrays;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.kernel.HarmonicTemplates;
import undersong.kernel.NonNegativeFit;
import undersong.time.FrameClock;

/**
 * How strongly each note sounds, frame by frame: the spectra explained as a sum of harmonic
 * templates, so that a bass note's third and fifth partial do not count as notes of their own.
 *
 * <p>Source: M. Mauch and S. Dixon, "Approximate Note Transcription for the Improved Identification
 * of Difficult Chords", ISMIR 2010. Departs from the paper: templates from the window's main lobe,
 * the long window below and the short one above, multiplicative updates.
 */
final class NoteStrengths {
  static final int LOWEST_PITCH = 28;
  static final int PITCHES = 64;

  /** Every second frame is heard: 12.5 a second. */
  private static final int EVERY = 2;

  private static final int LONG_WINDOW = 16384;
  private static final int SHORT_WINDOW = 4096;
  private static final double SAMPLE_RATE_HZ = 22050;
  private static final double BINS_PER_OCTAVE = 36;
  private static final double LONG_BELOW_HZ = 220;
  private static final double SHORT_ABOVE_HZ = 440;
  private static final double DECAY = 0.7;
  private static final int PARTIALS = 16;
  private static final int ROUNDS = 25;
  private static final int WHITENING_BINS = 36;
  private static final double WHITENING = 0.6;
  private static final float SPARSITY = 0.02f;

  private final FrameClock clock;
  private final float[][] strengths;
  private final float[] levels;

  private NoteStrengths(FrameClock clock, float[][] strengths, float[] levels) {
    this.clock = clock;
    this.strengths = strengths;
    this.levels = levels;
  }

  static NoteStrengths of(Features features, double tuningCents) {
    FrameMatrix longSpectrum = features.longSpectrum();
    FrameMatrix shortSpectrum = features.shortSpectrum();
    int bins = longSpectrum.bins();
    float[] shortShare = shortShares(bins);
    float[][] templates = templates(bins, shortShare, tuningCents);
    float[][] gram = NonNegativeFit.gram(templates);
    int frames = (longSpectrum.frames() + EVERY - 1) / EVERY;
    float[][] strengths = new float[frames][PITCHES];
    float[] levels = new float[frames];
    float[] low = new float[bins];
    float[] high = new float[bins];
    for (int i = 0; i < frames; i++) {
      longSpectrum.copyFrame(i * EVERY, low);
      shortSpectrum.copyFrame(Math.min(shortSpectrum.frames() - 1, i * EVERY), high);
      for (int b = 0; b < bins; b++) {
        float quick = magnitude(high[b]);
        levels[i] += quick;
        low[b] =
            shortShare[b] < 1
                ? (1 - shortShare[b]) * magnitude(low[b]) + shortShare[b] * quick
                : quick;
      }
      whiten(low, high);
      NonNegativeFit.fit(templates, gram, high, SPARSITY, ROUNDS, strengths[i]);
    }
    FrameClock every = longSpectrum.clock();
    return new NoteStrengths(
        new FrameClock(every.sampleRateHz(), every.hopSamples() * EVERY), strengths, levels);
  }

  /** Undoes the feature's log(1 + 1000 m). */
  private static float magnitude(float feature) {
    return feature <= 0 ? 0 : (float) (Math.expm1(feature) / 1000);
  }

  /** Divides by a power of the running mean, so that quiet registers count too. */
  private static void whiten(float[] magnitudes, float[] out) {
    int bins = magnitudes.length;
    double[] sums = new double[bins + 1];
    for (int b = 0; b < bins; b++) {
      sums[b + 1] = sums[b] + magnitudes[b];
    }
    double overall = sums[bins] / bins;
    for (int b = 0; b < bins; b++) {
      int from = Math.max(0, b - WHITENING_BINS);
      int to = Math.min(bins, b + WHITENING_BINS + 1);
      double mean = (sums[to] - sums[from]) / (to - from) + 0.05 * overall + 1e-5;
      out[b] = (float) (magnitudes[b] / Math.pow(mean, WHITENING));
    }
  }

  private static float[] shortShares(int bins) {
    float[] shares = new float[bins];
    for (int b = 0; b < bins; b++) {
      double place =
          Math.log(centerHz(b) / LONG_BELOW_HZ) / Math.log(SHORT_ABOVE_HZ / LONG_BELOW_HZ);
      shares[b] = (float) Math.max(0, Math.min(1, place));
    }
    return shares;
  }

  private static double centerHz(int bin) {
    return 27.5 * Math.pow(2, (bin - 1) / BINS_PER_OCTAVE);
  }

  private static float[][] templates(int bins, float[] shortShare, double tuningCents) {
    double[] centersHz = new double[bins];
    for (int b = 0; b < bins; b++) {
      centersHz[b] = centerHz(b);
    }
    double[] fundamentalsHz = new double[PITCHES];
    for (int p = 0; p < PITCHES; p++) {
      fundamentalsHz[p] = 440 * Math.pow(2, (LOWEST_PITCH + p - 69 + tuningCents / 100) / 12.0);
    }
    float[][] templates =
        HarmonicTemplates.magnitudes(
            fundamentalsHz, DECAY, PARTIALS, centersHz, LONG_WINDOW, SAMPLE_RATE_HZ);
    float[][] blurred =
        HarmonicTemplates.magnitudes(
            fundamentalsHz, DECAY, PARTIALS, centersHz, SHORT_WINDOW, SAMPLE_RATE_HZ);
    for (int p = 0; p < PITCHES; p++) {
      for (int b = 0; b < bins; b++) {
        templates[p][b] += shortShare[b] * (blurred[p][b] - templates[p][b]);
      }
    }
    return templates;
  }

  /** Mean magnitude of the short spectrum over [from, to) frames. */
  double level(int from, int to) {
    double sum = 0;
    for (int t = from; t < to; t++) {
      sum += levels[t];
    }
    return sum / Math.max(1, to - from);
  }

  int frames() {
    return strengths.length;
  }

  FrameClock clock() {
    return clock;
  }

  /** Mean square root of the strengths over [from, to) frames; written to {@code out}. */
  void mean(int from, int to, float[] out) {
    Arrays.fill(out, 0);
    for (int t = from; t < to; t++) {
      for (int p = 0; p < PITCHES; p++) {
        out[p] += (float) Math.sqrt(strengths[t][p]);
      }
    }
    for (int p = 0; p < PITCHES; p++) {
      out[p] /= Math.max(1, to - from);
    }
  }
}
