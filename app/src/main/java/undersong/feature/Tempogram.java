package undersong.feature;

import undersong.time.FrameClock;

/**
 * Strength of each tempo over time, from an onset strength envelope of 50 frames a second.
 *
 * <p><b>Out:</b> two frames a second; bin b is {@code 30 * 2^(b/24)} bpm, {@link #BINS} bins; 1
 * would be a pulse that is nothing but that tempo. <br>
 * <b>Silence:</b> zeros. <br>
 * <b>Cost:</b> O(frames * window).
 *
 * <p>Geometric mean of a Fourier tempogram, which also answers to multiples of the tempo, and an
 * autocorrelation tempogram, which also answers to fractions of it; both agree on the tempo itself.
 * Windows of 8 s (Hann), the local mean taken out.
 *
 * <p>Source of the idea: G. Peeters, "Template-based estimation of time-varying tempo", EURASIP J.
 * Advances in Signal Processing, 2007 (from memory).
 */
final class Tempogram {
  static final int BINS = 96;
  static final FrameClock CLOCK = new FrameClock(EarSpectraMaker.SAMPLE_RATE_HZ, 11_025);

  private static final int WINDOW = 400;
  private static final int FRAMES_PER_SECOND = 50;
  private static final int HOP = 25;
  private static final int LONGEST_LAG = 101;
  private static final float[][] COSINES = new float[BINS][WINDOW];
  private static final float[][] SINES = new float[BINS][WINDOW];
  private static final float[] HANN = new float[WINDOW];

  static {
    for (int n = 0; n < WINDOW; n++) {
      HANN[n] = (float) (0.5 - 0.5 * Math.cos(2 * Math.PI * (n + 0.5) / WINDOW));
      for (int b = 0; b < BINS; b++) {
        double turns = bpm(b) / 60 / FRAMES_PER_SECOND * n;
        COSINES[b][n] = (float) Math.cos(2 * Math.PI * turns);
        SINES[b][n] = (float) Math.sin(2 * Math.PI * turns);
      }
    }
  }

  private Tempogram() {}

  static double bpm(int bin) {
    return 30 * Math.pow(2, bin / 24.0);
  }

  /**
   * @param onsets onset strength, 50 a second; read
   */
  static FrameMatrix of(float[] onsets) {
    int frames = (onsets.length + HOP - 1) / HOP;
    float[] out = new float[frames * BINS];
    float[] window = new float[WINDOW];
    double[] correlation = new double[LONGEST_LAG + 1];
    for (int frame = 0; frame < frames; frame++) {
      if (cut(onsets, frame * HOP - WINDOW / 2, window)) {
        correlate(window, correlation);
        for (int b = 0; b < BINS; b++) {
          double fourier = fourier(window, b);
          double lagged = at(correlation, 60.0 * FRAMES_PER_SECOND / bpm(b)) / correlation[0];
          out[frame * BINS + b] = (float) Math.sqrt(fourier * Math.max(0, lagged));
        }
      }
    }
    return FrameMatrix.of(CLOCK, BINS, out);
  }

  /** Cuts, takes out the mean and tapers; says whether anything happens there. */
  private static boolean cut(float[] onsets, int from, float[] window) {
    double sum = 0;
    int inside = 0;
    for (int n = 0; n < WINDOW; n++) {
      boolean known = from + n >= 0 && from + n < onsets.length;
      window[n] = known ? onsets[from + n] : 0;
      sum += window[n];
      inside += known ? 1 : 0;
    }
    float mean = (float) (sum / Math.max(1, inside));
    double squares = 0;
    for (int n = 0; n < WINDOW; n++) {
      boolean known = from + n >= 0 && from + n < onsets.length;
      window[n] = known ? (window[n] - mean) * HANN[n] : 0;
      squares += window[n] * (double) window[n];
    }
    return squares > 1e-9;
  }

  private static void correlate(float[] window, double[] correlation) {
    for (int lag = 0; lag < correlation.length; lag++) {
      double sum = 0;
      for (int n = 0; n + lag < WINDOW; n++) {
        sum += window[n] * window[n + lag];
      }
      correlation[lag] = sum;
    }
  }

  /** Magnitude at a tempo, as a share of the most that this window could give. */
  private static double fourier(float[] window, int bin) {
    double re = 0;
    double im = 0;
    double most = 0;
    for (int n = 0; n < WINDOW; n++) {
      re += window[n] * COSINES[bin][n];
      im += window[n] * SINES[bin][n];
      most += Math.abs(window[n]);
    }
    return Math.sqrt(re * re + im * im) / most;
  }

  private static double at(double[] values, double position) {
    int floor = (int) position;
    double share = position - floor;
    return values[floor] * (1 - share) + (share > 0 ? values[floor + 1] * share : 0);
  }
}
