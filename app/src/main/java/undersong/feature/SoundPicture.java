package undersong.feature;

import java.util.Arrays;
import undersong.kernel.RealFft;
import undersong.kernel.Windows;

/**
 * A time-frequency picture for the eye: level of every third of a semitone at evenly spaced times.
 * Low pitches are looked at through longer windows than high ones, so that basses show their notes
 * and strokes their moment.
 *
 * <p><b>In:</b> mono samples, and where among them the picture begins and ends. <b>Out:</b> one
 * byte a point: 255 = a full-scale sine, 0 = {@link #RANGE_DB} below it or less. <b>Silence:</b>
 * zeros. <b>Cost:</b> at most three FFTs a column; where columns lie close, a window is moved no
 * more often than {@link #MOVES} times its own length, and what it shows between is interpolated.
 */
public final class SoundPicture {
  /** Pitch at the middle of the lowest row: C1. */
  public static final int LOWEST_MIDI = 24;

  public static final int ROWS_PER_SEMITONE = 3;
  public static final int ROWS = 7 * 12 * ROWS_PER_SEMITONE + 1;
  public static final double RANGE_DB = 96;

  /** Half of the longest window and a move of it: samples needed before and after the picture. */
  public static final int MARGIN = 8192 + 1024;

  private static final int[] SIZES = {16_384, 4096, 2048};
  private static final double[] REACH_HZ = {250, 2000, Double.POSITIVE_INFINITY};

  /** A spectrum under a Hann window hardly changes while the window moves by so small a part. */
  private static final int MOVES = 16;

  private final Row[] rows = new Row[ROWS];
  private final RealFft[] transforms = new RealFft[SIZES.length];
  private final float[][] windows = new float[SIZES.length][];
  private final float[][] frames = new float[SIZES.length][];

  /** The spectra before and after the column that is drawn, and where the first of them stands. */
  private final float[][][] power = new float[SIZES.length][2][];

  private final long[] place = new long[SIZES.length];

  /** A band and, in its bins, where a row begins and ends. */
  private record Row(int band, double low, double high) {}

  public SoundPicture(int sampleRateHz) {
    for (int i = 0; i < SIZES.length; i++) {
      transforms[i] = new RealFft(SIZES[i]);
      windows[i] = Windows.periodicHann(SIZES[i]);
      frames[i] = new float[SIZES[i]];
      power[i] = new float[2][SIZES[i] / 2 + 1];
    }
    for (int row = 0; row < ROWS; row++) {
      rows[row] = row(row, sampleRateHz);
    }
  }

  private static Row row(int row, int sampleRateHz) {
    double midi = LOWEST_MIDI + (double) row / ROWS_PER_SEMITONE;
    double hertz = 440 * Math.pow(2, (midi - 69) / 12);
    int band = 0;
    while (hertz > REACH_HZ[band]) {
      band++;
    }
    double binsPerHertz = (double) SIZES[band] / sampleRateHz;
    double halfRow = Math.pow(2, 1.0 / (24 * ROWS_PER_SEMITONE));
    return new Row(band, hertz / halfRow * binsPerHertz, hertz * halfRow * binsPerHertz);
  }

  /**
   * @param samples mono, -1 to 1; what lies outside counts as silence
   * @param from first sample of the picture
   * @param to one behind the last
   * @return {@code ROWS} x {@code columns} points, row by row, highest pitch first
   */
  public byte[] draw(float[] samples, double from, double to, int columns) {
    byte[] points = new byte[ROWS * columns];
    double[] share = new double[SIZES.length];
    Arrays.fill(place, Long.MIN_VALUE);
    for (int column = 0; column < columns; column++) {
      double middle = from + (column + 0.5) * (to - from) / columns;
      for (int band = 0; band < SIZES.length; band++) {
        share[band] = look(samples, middle, band, (to - from) / columns);
      }
      for (int row = 0; row < ROWS; row++) {
        Row at = rows[row];
        double before = powerOf(at, power[at.band()][0]);
        double after = share[at.band()] == 0 ? 0 : powerOf(at, power[at.band()][1]);
        points[(ROWS - 1 - row) * columns + column] =
            point(before + share[at.band()] * (after - before));
      }
    }
    return points;
  }

  /**
   * Brings a band's two spectra to both sides of a moment.
   *
   * @return how far the moment lies from the first towards the second
   */
  private double look(float[] samples, double middle, int band, double columnSamples) {
    int step = SIZES[band] / MOVES;
    if (columnSamples >= step) {
      transform(samples, Math.round(middle), band, 0);
      return 0;
    }
    long at = (long) Math.floor(middle / step);
    if (at != place[band]) {
      if (at == place[band] + 1) {
        float[] passed = power[band][0];
        power[band][0] = power[band][1];
        power[band][1] = passed;
      } else {
        transform(samples, at * step, band, 0);
      }
      transform(samples, (at + 1) * step, band, 1);
      place[band] = at;
    }
    return middle / step - at;
  }

  private void transform(float[] samples, long middle, int band, int which) {
    int size = SIZES[band];
    Windows.apply(windows[band], samples, (int) middle - size / 2, frames[band]);
    // A full-scale sine under a Hann window has a magnitude of a quarter of its size.
    transforms[band].power(frames[band], 16f / ((float) size * size), power[band][which]);
  }

  /** The loudest point between the row's edges; between bins where the row is narrower than one. */
  private static double powerOf(Row row, float[] power) {
    double loudest = Math.max(at(power, row.low()), at(power, row.high()));
    for (int bin = (int) Math.ceil(row.low()); bin <= row.high() && bin < power.length; bin++) {
      loudest = Math.max(loudest, power[bin]);
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
