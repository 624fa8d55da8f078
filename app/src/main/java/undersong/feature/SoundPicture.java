package undersong.feature;

import undersong.kernel.RealFft;
import undersong.kernel.Windows;

/**
 * A time-frequency picture for the eye: level of every third of a semitone at evenly spaced times.
 * Low pitches are looked at through longer windows than high ones, so that basses show their notes
 * and strokes their moment.
 *
 * <p><b>In:</b> mono samples, and where among them the picture begins and ends. <b>Out:</b> one
 * byte a point: 255 = a full-scale sine, 0 = {@link #RANGE_DB} below it or less. <b>Silence:</b>
 * zeros. <b>Cost:</b> three FFTs a column, some 0.2 ms.
 */
public final class SoundPicture {
  /** Pitch at the middle of the lowest row: C1. */
  public static final int LOWEST_MIDI = 24;

  public static final int ROWS_PER_SEMITONE = 3;
  public static final int ROWS = 7 * 12 * ROWS_PER_SEMITONE + 1;
  public static final double RANGE_DB = 96;

  /** Half of the longest window: samples needed before and after the picture. */
  public static final int MARGIN = 8192;

  private static final int[] SIZES = {16_384, 4096, 2048};
  private static final double[] REACH_HZ = {250, 2000, Double.POSITIVE_INFINITY};

  private final int sampleRateHz;
  private final RealFft[] transforms = new RealFft[SIZES.length];
  private final float[][] windows = new float[SIZES.length][];
  private final float[][] frames = new float[SIZES.length][];
  private final float[][] power = new float[SIZES.length][];

  public SoundPicture(int sampleRateHz) {
    this.sampleRateHz = sampleRateHz;
    for (int i = 0; i < SIZES.length; i++) {
      transforms[i] = new RealFft(SIZES[i]);
      windows[i] = Windows.periodicHann(SIZES[i]);
      frames[i] = new float[SIZES[i]];
      power[i] = new float[SIZES[i] / 2 + 1];
    }
  }

  /**
   * @param samples mono, -1 to 1; what lies outside counts as silence
   * @param from first sample of the picture
   * @param to one behind the last
   * @return {@code ROWS} x {@code columns} points, row by row, highest pitch first
   */
  public byte[] draw(float[] samples, double from, double to, int columns) {
    byte[] points = new byte[ROWS * columns];
    for (int column = 0; column < columns; column++) {
      int middle = (int) Math.round(from + (column + 0.5) * (to - from) / columns);
      look(samples, middle);
      for (int row = 0; row < ROWS; row++) {
        points[(ROWS - 1 - row) * columns + column] = point(powerOf(row));
      }
    }
    return points;
  }

  private void look(float[] samples, int middle) {
    for (int i = 0; i < SIZES.length; i++) {
      Windows.apply(windows[i], samples, middle - SIZES[i] / 2, frames[i]);
      // A full-scale sine under a Hann window has a magnitude of a quarter of its size.
      float scale = 16f / ((float) SIZES[i] * SIZES[i]);
      transforms[i].power(frames[i], scale, power[i]);
    }
  }

  /** The loudest point between the row's edges; between bins where the row is narrower than one. */
  private double powerOf(int row) {
    double midi = LOWEST_MIDI + (double) row / ROWS_PER_SEMITONE;
    double hertz = 440 * Math.pow(2, (midi - 69) / 12);
    int band = 0;
    while (hertz > REACH_HZ[band]) {
      band++;
    }
    double binsPerHertz = (double) SIZES[band] / sampleRateHz;
    double halfRow = Math.pow(2, 1.0 / (24 * ROWS_PER_SEMITONE));
    double low = hertz / halfRow * binsPerHertz;
    double high = hertz * halfRow * binsPerHertz;
    double loudest = Math.max(at(power[band], low), at(power[band], high));
    for (int bin = (int) Math.ceil(low); bin <= high && bin < power[band].length; bin++) {
      loudest = Math.max(loudest, power[band][bin]);
    }
    return loudest;
  }

  private static double at(float[] power, double place) {
    int bin = (int) place;
    if (bin + 1 >= power.length) {
      return 0;
    }
    double share = place - bin;
    return (1 - share) * power[bin] + share * power[bin + 1];
  }

  private static byte point(double power) {
    double decibels = power <= 0 ? -RANGE_DB : 10 * Math.log10(power);
    double share = Math.max(0, Math.min(1, 1 + decibels / RANGE_DB));
    return (byte) Math.round(255 * share);
  }
}
