package undersong.feature;

import java.util.Arrays;
import undersong.audio.AudioReader;
import undersong.kernel.RealFft;
import undersong.kernel.Windows;
import undersong.time.FrameClock;

/**
 * Measures band levels of mid and side and the spectral shape of mid, ten times a second, on a
 * stream of stereo samples at {@link AudioReader#SAMPLE_RATE_HZ}.
 *
 * <p>Windows of 8192 samples (186 ms, Hann), centered on their frames. A level is the RMS that the
 * band has under the window, 0 dBFS being an RMS of 1 (a full-scale sine reads -3 dBFS). Centroid,
 * roll-off and flatness leave out what lies below 20 Hz; flatness looks no higher than 16 kHz,
 * where many codecs cut.
 *
 * <p><b>Silence:</b> levels {@link #FLOOR_DB}, centroid, roll-off and flatness 0 (also wherever the
 * mid signal stays below {@link #FLOOR_DB}).
 */
final class LevelMeter {
  static final float FLOOR_DB = -120;
  static final int BANDS = 7;
  static final FrameClock CLOCK = new FrameClock(AudioReader.SAMPLE_RATE_HZ, 4410);

  private static final int WINDOW = 8192;
  private static final double[] EDGES_HZ = {80, 250, 800, 2500, 8000};
  private static final double BIN_HZ = (double) AudioReader.SAMPLE_RATE_HZ / WINDOW;
  private static final int LOWEST_BIN = (int) Math.ceil(20 / BIN_HZ);
  private static final int FLATNESS_TOP_BIN = (int) (16_000 / BIN_HZ);
  private static final float[] HANN = Windows.periodicHann(WINDOW);

  /**
   * Two-sided power over the window's own mean square, so that the bins sum up to the RMS squared.
   */
  private static final float SCALE = (float) (2 / (0.375 * WINDOW * (double) WINDOW));

  private final RealFft fft = new RealFft(WINDOW);
  private final float[] mid = new float[WINDOW];
  private final float[] side = new float[WINDOW];
  private final float[] frame = new float[WINDOW];
  private final float[] power = new float[WINDOW / 2 + 1];
  private int filled = WINDOW / 2; // silence before the first sample
  private long samples;

  private final FloatList midLevels = new FloatList();
  private final FloatList sideLevels = new FloatList();
  private final FloatList centroids = new FloatList();
  private final FloatList rollOffs = new FloatList();
  private final FloatList flatnesses = new FloatList();

  /**
   * @param midBlock (left + right) / 2
   * @param sideBlock (left - right) / 2
   */
  void accept(float[] midBlock, float[] sideBlock, int count) {
    int at = 0;
    while (at < count) {
      int run = Math.min(count - at, WINDOW - filled);
      System.arraycopy(midBlock, at, mid, filled, run);
      System.arraycopy(sideBlock, at, side, filled, run);
      filled += run;
      at += run;
      if (filled == WINDOW) {
        measure();
      }
    }
    samples += count;
  }

  /** Measures the frames whose windows reach past the end. */
  void finish() {
    long frames = (samples + CLOCK.hopSamples() - 1) / CLOCK.hopSamples();
    while (centroids.size() < frames) {
      Arrays.fill(mid, filled, WINDOW, 0);
      Arrays.fill(side, filled, WINDOW, 0);
      measure();
    }
  }

  FrameMatrix midLevelsDb() {
    return FrameMatrix.of(CLOCK, BANDS, midLevels.toArray());
  }

  FrameMatrix sideLevelsDb() {
    return FrameMatrix.of(CLOCK, BANDS, sideLevels.toArray());
  }

  FrameSeries centroidHz() {
    return new FrameSeries(CLOCK, centroids.toArray());
  }

  FrameSeries rollOffHz() {
    return new FrameSeries(CLOCK, rollOffs.toArray());
  }

  FrameSeries flatness() {
    return new FrameSeries(CLOCK, flatnesses.toArray());
  }

  private void measure() {
    spectrum(side);
    levels(sideLevels);
    spectrum(mid);
    shape(levels(midLevels));
    int kept = WINDOW - CLOCK.hopSamples();
    System.arraycopy(mid, CLOCK.hopSamples(), mid, 0, kept);
    System.arraycopy(side, CLOCK.hopSamples(), side, 0, kept);
    filled = kept;
  }

  private void spectrum(float[] signal) {
    Windows.apply(HANN, signal, 0, frame);
    fft.power(frame, SCALE, power);
  }

  /** Appends the band levels; gives the level of the whole. */
  private double levels(FloatList out) {
    double whole = 0;
    int k = 1;
    for (int band = 0; band < BANDS - 1; band++) {
      double top = band < EDGES_HZ.length ? EDGES_HZ[band] : Double.MAX_VALUE;
      double sum = 0;
      while (k < power.length && k * BIN_HZ < top) {
        sum += power[k++];
      }
      whole += sum;
      out.add(decibels(sum));
    }
    out.add(decibels(whole));
    return decibels(whole);
  }

  private void shape(double levelDb) {
    if (levelDb <= FLOOR_DB) {
      centroids.add(0);
      rollOffs.add(0);
      flatnesses.add(0);
      return;
    }
    double sum = 0;
    double moment = 0;
    double logs = 0;
    double flatSum = 0;
    for (int k = LOWEST_BIN; k < power.length; k++) {
      sum += power[k];
      moment += k * (double) power[k];
      if (k <= FLATNESS_TOP_BIN) {
        double floored = power[k] + 1e-20;
        logs += Math.log(floored);
        flatSum += floored;
      }
    }
    int counted = FLATNESS_TOP_BIN - LOWEST_BIN + 1;
    centroids.add(sum > 0 ? (float) (moment / sum * BIN_HZ) : 0);
    rollOffs.add(sum > 0 ? (float) (rollOffBin(0.85 * sum) * BIN_HZ) : 0);
    flatnesses.add((float) Math.min(1, Math.exp(logs / counted) / (flatSum / counted)));
  }

  private int rollOffBin(double share) {
    double sum = 0;
    int k = LOWEST_BIN;
    while (k < power.length - 1 && (sum += power[k]) < share) {
      k++;
    }
    return k;
  }

  private static float decibels(double meanSquare) {
    return meanSquare <= 1e-12 ? FLOOR_DB : (float) (10 * Math.log10(meanSquare));
  }
}
