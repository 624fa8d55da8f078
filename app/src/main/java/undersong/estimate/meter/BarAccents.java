package undersong.estimate.meter;

import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.kernel.GridSampling;
import undersong.kernel.LocalLevel;
import undersong.time.BeatGrid;
import undersong.time.FrameClock;

/**
 * What happens on each beat that may tell where bars begin: strokes low, middle and high on the
 * beat and half way to the next, how much the sound changes there for good, and how bright it
 * stays. Nothing about pitch.
 */
final class BarAccents {
  static final int PLACES = 12;
  static final int BANDS = 4;

  private static final double LEVEL_SECONDS = 8;
  private static final double FULL_STRENGTH = 5;
  private static final double QUIETEST_SHARE = 0.15;
  private static final int LEVEL_BANDS = 7;
  private static final int BRIGHT_BAND = 5;
  private static final int CHANGE_BEATS = 4;

  private final int beats;
  private final float[] strengths;
  private final double[] change;
  private final double[] brightness;

  private BarAccents(int beats, float[] strengths, double[] change, double[] brightness) {
    this.beats = beats;
    this.strengths = strengths;
    this.change = change;
    this.brightness = brightness;
  }

  int beats() {
    return beats;
  }

  /** Strength on a place of a beat; bands: 0 all together, 1 low, 2 middle, 3 high. */
  double at(int beat, int place, int band) {
    return strengths[(beat * PLACES + place) * BANDS + band];
  }

  /** How far the levels by register lie apart, in dB, in the beats before and from this one on. */
  double changeAt(int beat) {
    return change[beat];
  }

  /** How much brighter this beat sounds than the ones before, in dB: a cymbal rings. */
  double brightnessAt(int beat) {
    return brightness[beat];
  }

  float[] strengths() {
    return strengths;
  }

  /**
   * @param delaySeconds by which strokes stand later in the curves than the beats they make
   */
  static BarAccents of(Features features, BeatGrid grid, double delaySeconds) {
    FrameClock clock = features.onsetStrength().clock();
    int beats = grid.size();
    double[] frames = new double[beats + 1];
    for (int beat = 0; beat <= beats; beat++) {
      frames[beat] = (grid.secondsAtPosition(beat) + delaySeconds) * clock.framesPerSecond();
    }
    float[] strengths = new float[beats * PLACES * BANDS];
    int half = (int) Math.round(LEVEL_SECONDS * clock.framesPerSecond());
    for (int band = 0; band < BANDS; band++) {
      float[] curve = curve(features, band);
      LocalLevel.divide(curve, half, FULL_STRENGTH, QUIETEST_SHARE);
      GridSampling.sample(GridSampling.widen(curve), frames, PLACES, strengths, BANDS, band);
    }
    double[][] levels = levels(features.bandLevelsDb(), grid);
    return new BarAccents(beats, strengths, change(levels), brightness(levels));
  }

  private static float[] curve(Features features, int band) {
    if (band == 0) {
      return features.onsetStrength().toArray();
    }
    float[] curve = new float[features.bandOnsets().frames()];
    for (int i = 0; i < curve.length; i++) {
      curve[i] = features.bandOnsets().at(i, band - 1);
    }
    return curve;
  }

  /** Mean level of each register during each beat. */
  private static double[][] levels(FrameMatrix levelsDb, BeatGrid grid) {
    double[][] levels = new double[grid.size()][LEVEL_BANDS];
    for (int beat = 0; beat < levels.length; beat++) {
      int from = levelsDb.clock().frameAt(grid.secondsAtPosition(beat));
      int to = Math.max(from + 1, levelsDb.clock().frameAt(grid.secondsAtPosition(beat + 1.0)));
      for (int i = from; i < to; i++) {
        int frame = Math.max(0, Math.min(levelsDb.frames() - 1, i));
        for (int band = 0; band < LEVEL_BANDS; band++) {
          levels[beat][band] += Math.max(-80, levelsDb.at(frame, band)) / (to - from);
        }
      }
    }
    return levels;
  }

  private static double[] change(double[][] levels) {
    double[] change = new double[levels.length];
    for (int beat = 1; beat < levels.length; beat++) {
      double sum = 0;
      for (int band = 0; band < LEVEL_BANDS; band++) {
        double before = mean(levels, band, beat - CHANGE_BEATS, beat);
        double after = mean(levels, band, beat, beat + CHANGE_BEATS);
        sum += Math.abs(after - before);
      }
      change[beat] = Math.min(10, sum / LEVEL_BANDS);
    }
    return change;
  }

  private static double[] brightness(double[][] levels) {
    double[] brightness = new double[levels.length];
    for (int beat = 1; beat < levels.length; beat++) {
      double rise =
          mean(levels, BRIGHT_BAND, beat, beat + 2) - mean(levels, BRIGHT_BAND, beat - 3, beat);
      brightness[beat] = Math.max(-10, Math.min(10, rise));
    }
    return brightness;
  }

  private static double mean(double[][] levels, int band, int from, int to) {
    double sum = 0;
    int count = 0;
    for (int beat = Math.max(0, from); beat < Math.min(levels.length, to); beat++) {
      sum += levels[beat][band];
      count++;
    }
    return count == 0 ? 0 : sum / count;
  }
}
