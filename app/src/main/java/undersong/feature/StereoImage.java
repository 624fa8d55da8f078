package undersong.feature;

import undersong.time.FrameClock;

/**
 * How sound lies between left and right, by pitch, and how levels move, quickly.
 *
 * <p>Power and cross power add up where sounds that have nothing to do with each other meet, so the
 * place of one sound can be read off what it adds to them. From {@code levelDb} (p), {@code
 * balance} (b) and {@code likeness} (s) of a cell: left power {@code p (1 - b)}, right power {@code
 * p (1 + b)}, cross power {@code p s}.
 *
 * @param levelDb 25 a second, {@link #BINS} bins: mean power of both channels, RMS in dBFS, at
 *     least -120
 * @param balance the same cells: (right - left) / (right + left) of the powers, -1 to 1; 0 in
 *     silence
 * @param likeness the same cells: twice the real cross power over the sum of the powers, -1
 *     (opposite) to 1 (equal); 1 in silence. Avendano (2003) calls its magnitude the similarity.
 * @param quickLevelsDb 172 a second, {@link #QUICK_BANDS} octave bands of the left channel, then of
 *     the right: RMS in dBFS, at least -120; windows of 23 ms
 * @param lowWave 5512.5 a second, one bin: samples of the middle (mean of both channels) below 2.6
 *     kHz, full scale 1. Only in the samples does a copy of a sound differ from a second sound that
 *     is like it.
 */
public record StereoImage(
    FrameMatrix levelDb,
    FrameMatrix balance,
    FrameMatrix likeness,
    FrameMatrix quickLevelsDb,
    FrameMatrix lowWave) {
  /** The finer of one transform bin (10.8 Hz) and a semitone. */
  public static final int BINS = 98;

  public static final int QUICK_BANDS = 8;
  public static final FrameClock CLOCK = new FrameClock(44_100, 1764);
  public static final FrameClock QUICK_CLOCK = new FrameClock(44_100, 256);
  public static final FrameClock WAVE_CLOCK = new FrameClock(44_100, 8);

  /** What the image of no sound at all is. */
  public static final StereoImage NOTHING =
      new StereoImage(
          FrameMatrix.of(CLOCK, BINS, new float[0]),
          FrameMatrix.of(CLOCK, BINS, new float[0]),
          FrameMatrix.of(CLOCK, BINS, new float[0]),
          FrameMatrix.of(QUICK_CLOCK, 2 * QUICK_BANDS, new float[0]),
          FrameMatrix.of(WAVE_CLOCK, 1, new float[0]));

  static final double FFT_BIN_HZ = 44_100.0 / 4096;
  private static final int SINGLE_BINS = 20;
  private static final double FIRST_SEMITONE_HZ = 440 * Math.pow(2, (57.5 - 69) / 12);

  public int frames() {
    return levelDb.frames();
  }

  /** Lower edge of a bin; also upper edge of the bin before. */
  public static double edgeHz(int bin) {
    return bin < SINGLE_BINS
        ? (bin + 0.5) * FFT_BIN_HZ
        : FIRST_SEMITONE_HZ * Math.pow(2, (bin - SINGLE_BINS) / 12.0);
  }

  /** The bin that holds a frequency; the first or the last where it lies outside. */
  public static int binOf(double hertz) {
    double bin =
        hertz < FIRST_SEMITONE_HZ
            ? hertz / FFT_BIN_HZ - 0.5
            : SINGLE_BINS + 12 * Math.log(hertz / FIRST_SEMITONE_HZ) / Math.log(2);
    int floor = (int) Math.floor(bin);
    return Math.max(0, Math.min(BINS - 1, hertz < FIRST_SEMITONE_HZ ? Math.min(floor, 19) : floor));
  }

  /** Lower edge of a quick band; also upper edge of the band before. */
  public static double quickEdgeHz(int band) {
    return band == 0 ? 0 : 125 * Math.pow(2, band - 1);
  }
}
