package undersong.estimate.bass;

import undersong.feature.Features;
import undersong.feature.FrameMatrix;

/**
 * Bass evidence from the low spectrum: each pitch is weighed by how far the spectrum stands out at
 * its own partials, and against it at the places where only a lower note would have partials.
 * Onsets come from the rise of its partials in the short window, which is quick where the long one
 * blurs.
 *
 * <p>Source: harmonic summation (D. J. Hermes, "Measurement of pitch by subharmonic summation",
 * JASA 83, 1988). Departs from it: weights, some negative, by logistic regression on renderings
 * (TimGM6mb) of the charts marked for learning.
 */
final class ClassicalBassEvidence {
  private static final double RESTRIKE_ONSET = 0.33;
  private static final double BINS_PER_OCTAVE = 36;

  /** Bins to either side over which the spectrum's local mean is taken: three semitones. */
  private static final int AROUND_BINS = 9;

  private static final double HIGHEST_PROMINENCE = 2.5;

  // Multiples of the fundamental and what prominence there says for the pitch.
  private static final double[] MULTIPLES = {
    1 / 3.0, 0.5, 2 / 3.0, 0.75, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8
  };
  private static final double[] WEIGHTS = {
    -0.5, -2.0, -1.4, 0.8, 3.5, -1.85, 0.73, -1.0, 0, 0.5, 0.8, 1.4, 1.1, 1.1
  };
  private static final double PER_SEMITONE_ABOVE_40 = -0.25;
  private static final double PER_SEMITONE_BELOW_33 = -0.07;

  /** What a pitch must be worth to be heard rather than nothing. */
  private static final double NO_BASS = 3.0;

  private static final double SCALE = 0.6;

  /** A frame whose features stay this low on average holds no bass. */
  private static final double SILENT = 0.02;

  private static final int LOW_BINS = 120;
  private static final double ONSET_LOWEST_HZ = 120;
  private static final double ONSET_HIGHEST_HZ = 900;

  private ClassicalBassEvidence() {}

  static BassEvidence of(Features features, double tuningCents) {
    FrameMatrix spectrum = features.longSpectrum();
    float[][] states = new float[spectrum.frames()][BassEvidence.PITCHES + 1];
    double[][] places = places(tuningCents);
    float[] frame = new float[spectrum.bins()];
    float[] prominence = new float[spectrum.bins()];
    for (int t = 0; t < states.length; t++) {
      spectrum.copyFrame(t, frame);
      states[t][BassEvidence.NO_BASS] = (float) (SCALE * NO_BASS);
      if (mean(frame) < SILENT) {
        java.util.Arrays.fill(states[t], 0, BassEvidence.PITCHES, -3);
        continue;
      }
      prominence(frame, prominence);
      for (int p = 0; p < BassEvidence.PITCHES; p++) {
        int pitch = p + BassEvidence.LOWEST_PITCH;
        states[t][p] =
            (float)
                (SCALE
                    * (weight(prominence, places[p])
                        + PER_SEMITONE_ABOVE_40 * Math.max(0, pitch - 40)
                        + PER_SEMITONE_BELOW_33 * Math.max(0, 33 - pitch)));
      }
    }
    return new BassEvidence(
        spectrum.clock(), states, onsets(features, tuningCents), RESTRIKE_ONSET);
  }

  private static double mean(float[] frame) {
    double sum = 0;
    for (int b = 0; b < LOW_BINS; b++) {
      sum += frame[b];
    }
    return sum / LOW_BINS;
  }

  /** How far each bin stands above the mean around it. */
  private static void prominence(float[] frame, float[] out) {
    int last = frame.length - 1;
    double sum = 0;
    for (int b = -AROUND_BINS; b <= AROUND_BINS; b++) {
      sum += frame[Math.max(0, b)];
    }
    for (int b = 0; b <= last; b++) {
      out[b] = (float) Math.max(0, frame[b] - sum / (2 * AROUND_BINS + 1));
      sum += frame[Math.min(last, b + AROUND_BINS + 1)] - frame[Math.max(0, b - AROUND_BINS)];
    }
  }

  private static double weight(float[] prominence, double[] places) {
    double sum = 0;
    for (int i = 0; i < places.length; i++) {
      int below = (int) Math.floor(places[i]);
      if (below >= 0 && below + 1 < prominence.length) {
        double share = places[i] - below;
        double value = (1 - share) * prominence[below] + share * prominence[below + 1];
        sum += WEIGHTS[i] * Math.min(HIGHEST_PROMINENCE, value);
      }
    }
    return sum;
  }

  /** {@code [pitch][multiple]}: fractional bin. */
  private static double[][] places(double tuningCents) {
    double[][] places = new double[BassEvidence.PITCHES][MULTIPLES.length];
    for (int p = 0; p < places.length; p++) {
      for (int i = 0; i < MULTIPLES.length; i++) {
        places[p][i] = bin(hertz(p, tuningCents) * MULTIPLES[i]);
      }
    }
    return places;
  }

  private static double hertz(int pitch, double tuningCents) {
    return 440 * Math.pow(2, (BassEvidence.LOWEST_PITCH + pitch - 69 + tuningCents / 100) / 12);
  }

  private static double bin(double hertz) {
    return BINS_PER_OCTAVE * Math.log(hertz / 27.5) / Math.log(2) + 1;
  }

  /** Rise of the partials of each pitch between two frames of the short spectrum. */
  private static float[][] onsets(Features features, double tuningCents) {
    FrameMatrix spectrum = features.shortSpectrum();
    int[][] bins = partialBins(tuningCents);
    float[][] onsets = new float[spectrum.frames()][BassEvidence.PITCHES];
    float[] before = new float[spectrum.bins()];
    float[] after = new float[spectrum.bins()];
    for (int t = 2; t < onsets.length; t++) {
      spectrum.copyFrame(t - 2, before);
      spectrum.copyFrame(t, after);
      for (int p = 0; p < BassEvidence.PITCHES; p++) {
        float rise = 0;
        for (int b : bins[p]) {
          rise += Math.max(0, after[b] - before[b]);
        }
        onsets[t - 1][p] = rise / bins[p].length;
      }
    }
    return onsets;
  }

  private static int[][] partialBins(double tuningCents) {
    int[][] bins = new int[BassEvidence.PITCHES][];
    for (int p = 0; p < bins.length; p++) {
      double hz = hertz(p, tuningCents);
      int first = (int) Math.ceil(ONSET_LOWEST_HZ / hz);
      int last = (int) Math.floor(ONSET_HIGHEST_HZ / hz);
      bins[p] = new int[last - first + 1];
      for (int k = first; k <= last; k++) {
        bins[p][k - first] = (int) Math.round(bin(k * hz));
      }
    }
    return bins;
  }
}
