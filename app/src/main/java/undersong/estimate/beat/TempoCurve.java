package undersong.estimate.beat;

import undersong.time.FrameClock;

/**
 * A slowly moving tempo: beat period in frames, for every frame of the activation.
 *
 * <p>Read off the tempo evidence by a Viterbi pass in which the tempo slides from one half second
 * to the next and pays for every step, so that it follows a drift but does not leap an octave where
 * a section halves its drums.
 */
final class TempoCurve {
  private static final double SLOWEST_BPM = 50;
  private static final double FASTEST_BPM = 220;
  private static final double TYPICAL_BPM = 110;
  private static final double TYPICAL_SHARE = 0.2;
  private static final double STEP_COST = 0.3;
  private static final double HOME_OCTAVES = 0.3;
  private static final double AWAY_COST = 0.4;
  private static final float OCTAVE_SHARE = 0.5f;
  private static final float TWELFTH_SHARE = 0.35f;
  private static final int LARGEST_STEP = 3;
  private static final int SMOOTHING_FRAMES = 6;

  private final double[] periodFrames;

  private TempoCurve(double[] periodFrames) {
    this.periodFrames = periodFrames;
  }

  double periodAt(int frame) {
    return periodFrames[Math.max(0, Math.min(periodFrames.length - 1, frame))];
  }

  /** The same curve with {@code factor} times as many beats. */
  TempoCurve times(double factor) {
    double[] scaled = periodFrames.clone();
    for (int i = 0; i < scaled.length; i++) {
      scaled[i] /= factor;
    }
    return new TempoCurve(scaled);
  }

  double medianBpm(FrameClock clock) {
    double[] sorted = periodFrames.clone();
    java.util.Arrays.sort(sorted);
    return 60 * clock.framesPerSecond() / sorted[sorted.length / 2];
  }

  /** The pace of given beats, evened out over some beats to either side. */
  static TempoCurve along(double[] beatFrames, int frames) {
    int n = beatFrames.length;
    double[] period = new double[frames];
    int reach = 6;
    int beat = 0;
    for (int frame = 0; frame < frames; frame++) {
      while (beat < n - 2 && beatFrames[beat + 1] <= frame) {
        beat++;
      }
      int from = Math.max(0, beat - reach);
      int to = Math.min(n - 1, beat + 1 + reach);
      period[frame] = (beatFrames[to] - beatFrames[from]) / (to - from);
    }
    return new TempoCurve(period);
  }

  static TempoCurve of(TempoEvidence tempo, FrameClock clock, int frames) {
    int columns = tempo.strengths().frames();
    int first = (int) Math.ceil(tempo.binAt(SLOWEST_BPM));
    int bins = (int) Math.floor(tempo.binAt(FASTEST_BPM)) - first + 1;
    double[] bpm = smooth(columns == 0 ? new double[] {TYPICAL_BPM} : path(tempo, first, bins));
    double[] period = new double[frames];
    for (int frame = 0; frame < frames; frame++) {
      double column = tempo.strengths().clock().framesPerSecond() * clock.secondsAt(frame);
      int i = Math.min(bpm.length - 1, (int) column);
      int j = Math.min(bpm.length - 1, i + 1);
      double share = Math.min(1, column - i);
      period[frame] = 60 * clock.framesPerSecond() / ((1 - share) * bpm[i] + share * bpm[j]);
    }
    return new TempoCurve(period);
  }

  private static double[] path(TempoEvidence tempo, int first, int bins) {
    int columns = tempo.strengths().frames();
    float[] family = family(tempo, first, bins);
    int base = base(family, tempo, first, bins);
    double[] prior = new double[bins];
    for (int b = 0; b < bins; b++) {
      double away = Math.abs(b - base) / (double) tempo.binsPerOctave();
      prior[b] = away > HOME_OCTAVES ? -AWAY_COST : 0;
    }
    double[] best = new double[bins];
    double[] next = new double[bins];
    byte[] steps = new byte[columns * bins];
    for (int column = 0; column < columns; column++) {
      for (int b = 0; b < bins; b++) {
        double top = Double.NEGATIVE_INFINITY;
        for (int step = -LARGEST_STEP; step <= LARGEST_STEP; step++) {
          int from = b + step;
          if (from >= 0 && from < bins && best[from] - STEP_COST * Math.abs(step) > top) {
            top = best[from] - STEP_COST * Math.abs(step);
            steps[column * bins + b] = (byte) step;
          }
        }
        next[b] = top + family[column * bins + b] + prior[b];
      }
      double[] swap = best;
      best = next;
      next = swap;
    }
    int bin = 0;
    for (int b = 1; b < bins; b++) {
      bin = best[b] > best[bin] ? b : bin;
    }
    double[] bpm = new double[columns];
    for (int column = columns - 1; column >= 0; column--) {
      bpm[column] = tempo.bpmAt(summit(tempo, column, first + bin));
      bin += steps[column * bins + bin];
    }
    return bpm;
  }

  /** Each tempo's strength together with that of its double, triple, half and third. */
  private static float[] family(TempoEvidence tempo, int first, int bins) {
    int columns = tempo.strengths().frames();
    int octave = tempo.binsPerOctave();
    int twelfth = (int) Math.round(octave * Math.log(3) / Math.log(2));
    float[] family = new float[columns * bins];
    for (int column = 0; column < columns; column++) {
      float largest = 1e-9f;
      for (int b = 0; b < bins; b++) {
        int bin = first + b;
        float sum = strength(tempo, column, bin);
        sum += OCTAVE_SHARE * strength(tempo, column, bin + octave);
        sum += OCTAVE_SHARE * strength(tempo, column, bin - octave);
        sum += TWELFTH_SHARE * strength(tempo, column, bin + twelfth);
        sum += TWELFTH_SHARE * strength(tempo, column, bin - twelfth);
        family[column * bins + b] = sum;
        largest = Math.max(largest, sum);
      }
      for (int b = 0; b < bins; b++) {
        family[column * bins + b] /= largest;
      }
    }
    return family;
  }

  private static float strength(TempoEvidence tempo, int column, int bin) {
    return bin < 0 || bin >= tempo.strengths().bins()
        ? 0
        : Math.max(0, tempo.strengths().at(column, bin));
  }

  /** The tempo that most of the recording keeps near to. */
  private static int base(float[] family, TempoEvidence tempo, int first, int bins) {
    double[] sums = new double[bins];
    for (int i = 0; i < family.length; i++) {
      sums[i % bins] += family[i];
    }
    int columns = family.length / bins;
    int base = 0;
    double top = Double.NEGATIVE_INFINITY;
    for (int b = 0; b < bins; b++) {
      double near = 0;
      for (int step = -3; step <= 3; step++) {
        int other = Math.max(0, Math.min(bins - 1, b + step));
        near += (4 - Math.abs(step)) * sums[other] / 16;
      }
      double octaves = Math.log(tempo.bpmAt(first + b) / TYPICAL_BPM) / Math.log(2);
      double value = near + TYPICAL_SHARE * columns * Math.exp(-octaves * octaves);
      if (value > top) {
        top = value;
        base = b;
      }
    }
    return base;
  }

  /** Bin of the peak near a bin, between the bins, by a parabola through three strengths. */
  private static double summit(TempoEvidence tempo, int column, int bin) {
    if (bin < 1 || bin + 1 >= tempo.strengths().bins()) {
      return bin;
    }
    double left = tempo.strengths().at(column, bin - 1);
    double middle = tempo.strengths().at(column, bin);
    double right = tempo.strengths().at(column, bin + 1);
    double bend = left - 2 * middle + right;
    return bend >= 0 ? bin : bin + Math.max(-0.5, Math.min(0.5, 0.5 * (left - right) / bend));
  }

  private static double[] smooth(double[] bpm) {
    double[] smoothed = new double[bpm.length];
    for (int i = 0; i < bpm.length; i++) {
      int from = Math.max(0, i - SMOOTHING_FRAMES);
      int to = Math.min(bpm.length, i + SMOOTHING_FRAMES + 1);
      double[] window = java.util.Arrays.copyOfRange(bpm, from, to);
      java.util.Arrays.sort(window);
      smoothed[i] = window[window.length / 2];
    }
    return smoothed;
  }
}
