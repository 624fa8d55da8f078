package undersong.feature;

import java.util.Arrays;

/**
 * How far the peaks of a spectrum lie from the equal-tempered scale on A = 440 Hz.
 *
 * <p><b>In:</b> a spectrum of 264 bins as {@link Features#longSpectrum} has it. <br>
 * <b>Out:</b> weight of each deviation from -50 to 49 cents, all together 1. <br>
 * <b>Silence:</b> zeros; {@link #meanCents} and {@link #concentration} are 0. <br>
 * <b>Cost:</b> O(frames * bins).
 *
 * <p>A peak's frequency is the center of gravity of its power in three neighboring triangular
 * filters, which for one steady partial is its frequency. Peaks from 110 Hz to 2 kHz count, by
 * their log magnitude.
 */
public final class TuningHistogram {
  private static final int LOWEST_BIN = 73; // 110 Hz
  private static final int HIGHEST_BIN = 223; // 2 kHz
  private static final double LEAST_RISE = 1; // over the bins a semitone away, in log magnitude

  private final double[] weights;
  private final double meanCents;
  private final double concentration;

  private TuningHistogram(double[] weights, double meanCents, double concentration) {
    this.weights = weights;
    this.meanCents = meanCents;
    this.concentration = concentration;
  }

  public static TuningHistogram of(FrameMatrix spectrum) {
    if (spectrum.bins() != EarSpectra.TONAL_BINS) {
      throw new IllegalArgumentException(
          "The spectrum has %d bins; tuning is read from %d. Maybe it is a rhythm spectrum."
              .formatted(spectrum.bins(), EarSpectra.TONAL_BINS));
    }
    double[] weights = new double[100];
    double re = 0;
    double im = 0;
    double all = 0;
    float[] frame = new float[spectrum.bins()];
    for (int i = 0; i < spectrum.frames(); i++) {
      spectrum.copyFrame(i, frame);
      for (int bin = LOWEST_BIN; bin <= HIGHEST_BIN; bin++) {
        if (!isPeak(frame, bin)) {
          continue;
        }
        double semitones = 12 * Math.log(peakHz(frame, bin) / 440) / Math.log(2);
        double cents = 100 * (semitones - Math.rint(semitones));
        double weight = frame[bin];
        weights[Math.floorMod((int) Math.floor(cents + 50), 100)] += weight;
        re += weight * Math.cos(2 * Math.PI * cents / 100);
        im += weight * Math.sin(2 * Math.PI * cents / 100);
        all += weight;
      }
    }
    if (all == 0) {
      return new TuningHistogram(weights, 0, 0);
    }
    for (int c = 0; c < weights.length; c++) {
      weights[c] /= all;
    }
    return new TuningHistogram(
        weights, 100 * Math.atan2(im, re) / (2 * Math.PI), Math.hypot(re, im) / all);
  }

  private static boolean isPeak(float[] frame, int bin) {
    float value = frame[bin];
    return value > frame[bin - 1]
        && value >= frame[bin + 1]
        && value > Math.max(frame[bin - 3], frame[bin + 3]) + LEAST_RISE;
  }

  private static double peakHz(float[] frame, int bin) {
    double power = 0;
    double moment = 0;
    for (int b = bin - 1; b <= bin + 1; b++) {
      double magnitude = Math.expm1(frame[b]);
      power += magnitude * magnitude;
      moment += magnitude * magnitude * 27.5 * Math.pow(2, (b - 1) / 36.0);
    }
    return moment / power;
  }

  /** Weight of the deviations from {@code cents} to the next cent, -50 to 49. */
  public double at(int cents) {
    return weights[cents + 50];
  }

  /** Circular mean of the deviations, -50 to 50; the tuning if {@link #concentration} is high. */
  public double meanCents() {
    return meanCents;
  }

  /** 1 where all peaks deviate alike, near 0 where they lie anywhere. */
  public double concentration() {
    return concentration;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof TuningHistogram histogram && Arrays.equals(weights, histogram.weights);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(weights);
  }
}
