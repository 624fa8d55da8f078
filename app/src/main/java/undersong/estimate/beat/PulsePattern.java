package undersong.estimate.beat;

import undersong.feature.FrameSeries;
import undersong.kernel.GridSampling;

/** What sounds on and between the beats of a pulse: twelve places in each beat, band by band. */
final class PulsePattern {
  static final int PLACES = 12;
  static final int BANDS = 4;

  private final float[] strengths;
  private final int beats;

  private PulsePattern(float[] strengths, int beats) {
    this.strengths = strengths;
    this.beats = beats;
  }

  int beats() {
    return beats;
  }

  /** Strength on a place of a beat; bands: 0 all together, 1 low, 2 middle, 3 high. */
  float at(int beat, int place, int band) {
    return strengths[(beat * PLACES + place) * BANDS + band];
  }

  /** Each frame's strength or that of a neighbor where it is larger: strokes are never exact. */
  static float[][] widened(BeatActivation activation) {
    FrameSeries[] bands = {
      activation.beat(), activation.low(), activation.middle(), activation.high()
    };
    float[][] wide = new float[BANDS][];
    for (int band = 0; band < BANDS; band++) {
      wide[band] = GridSampling.widen(bands[band].toArray());
    }
    return wide;
  }

  /**
   * @param wide as {@link #widened} gives them
   * @param beatFrames fractional frames of the beats
   */
  static PulsePattern of(float[][] wide, double[] beatFrames) {
    int beats = beatFrames.length - 1;
    float[] strengths = new float[Math.max(0, beats) * PLACES * BANDS];
    for (int band = 0; band < BANDS; band++) {
      GridSampling.sample(wide[band], beatFrames, PLACES, strengths, BANDS, band);
    }
    return new PulsePattern(strengths, beats);
  }

  /** Mean strength on a place over all beats. */
  double mean(int place, int band) {
    double sum = 0;
    for (int beat = 0; beat < beats; beat++) {
      sum += at(beat, place, band);
    }
    return beats == 0 ? 0 : sum / beats;
  }

  /** Mean on every second beat less mean on the others. */
  double alternation(int band) {
    double sum = 0;
    int pairs = beats / 2;
    for (int beat = 0; beat + 1 < beats; beat += 2) {
      sum += at(beat, 0, band) - at(beat + 1, 0, band);
    }
    return pairs == 0 ? 0 : sum / pairs;
  }

  /**
   * How alike beats are that lie some beats apart, once what all beats share is taken away: 1
   * alike, 0 unrelated.
   */
  double[] likeness(int largestLag) {
    int width = PLACES * BANDS;
    float[] mean = new float[width];
    for (int i = 0; i < strengths.length; i++) {
      mean[i % width] += strengths[i] / Math.max(1, beats);
    }
    float[] rest = new float[strengths.length];
    double own = 1e-6;
    for (int i = 0; i < rest.length; i++) {
      rest[i] = strengths[i] - mean[i % width];
      own += rest[i] * rest[i];
    }
    double[] likeness = new double[largestLag + 1];
    for (int lag = 1; lag <= largestLag && lag < beats; lag++) {
      double sum = 0;
      int offset = lag * width;
      for (int i = 0; i + offset < rest.length; i++) {
        sum += rest[i] * rest[i + offset];
      }
      likeness[lag] = sum / own * beats / (beats - lag);
    }
    return likeness;
  }
}
