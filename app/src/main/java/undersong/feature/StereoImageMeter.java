package undersong.feature;

import java.util.Arrays;
import undersong.kernel.Halving;
import undersong.kernel.StereoFft;
import undersong.kernel.Windows;
import undersong.time.FrameClock;

/**
 * Measures the {@link StereoImage} on a stream of stereo samples.
 *
 * <p><b>Silence</b> gives levels of -120 dB, balance 0, likeness 1. <b>Cost:</b> one complex
 * transform of 4096 samples 25 times a second and one of 1024 samples 172 times a second; memory
 * for the image only.
 */
final class StereoImageMeter {
  private static final double FLOOR_DB = LevelMeter.FLOOR_DB;

  private final FieldFrames field = new FieldFrames();
  private final QuickFrames quick = new QuickFrames();
  private final LowWave wave = new LowWave();

  void accept(float[] interleaved, int frames) {
    field.accept(interleaved, frames);
    quick.accept(interleaved, frames);
  }

  /** Takes the middle at half the rate of {@link #accept}, as far as it is known by now. */
  void acceptHalved(float[] mid, int count) {
    wave.accept(mid, count);
  }

  /** Measures the frames whose windows reach past the end. */
  void finish() {
    field.finish();
    quick.finish();
    wave.finish();
  }

  StereoImage read() {
    return new StereoImage(
        field.levels.toMatrix(StereoImage.CLOCK, StereoImage.BINS),
        field.balances.toMatrix(StereoImage.CLOCK, StereoImage.BINS),
        field.likenesses.toMatrix(StereoImage.CLOCK, StereoImage.BINS),
        quick.levels.toMatrix(StereoImage.QUICK_CLOCK, 2 * StereoImage.QUICK_BANDS),
        wave.samples.toMatrix(StereoImage.WAVE_CLOCK, 1));
  }

  private static double decibels(double meanSquare) {
    return meanSquare <= 1e-12 ? FLOOR_DB : 10 * Math.log10(meanSquare);
  }

  /** Cuts a stream into overlapping windows, the first centered on the first sample. */
  private abstract static class Frames {
    private final FrameClock clock;
    private final int window;
    private final float[] buffer;
    private final StereoFft fft;
    private final float scale;
    final float[] left;
    final float[] right;
    final float[] cross;
    private int filled;
    private long samples;
    private long measured;

    Frames(FrameClock clock, int window) {
      this.clock = clock;
      this.window = window;
      this.buffer = new float[2 * window];
      this.fft = new StereoFft(Windows.periodicHann(window));
      this.scale = (float) (2 / (0.375 * window * (double) window));
      this.left = new float[window / 2 + 1];
      this.right = new float[window / 2 + 1];
      this.cross = new float[window / 2 + 1];
      this.filled = window / 2; // silence before the first sample
    }

    final void accept(float[] interleaved, int frames) {
      int at = 0;
      while (at < frames) {
        int run = Math.min(frames - at, window - filled);
        System.arraycopy(interleaved, 2 * at, buffer, 2 * filled, 2 * run);
        filled += run;
        at += run;
        if (filled == window) {
          measureAndSlide();
        }
      }
      samples += frames;
    }

    final void finish() {
      long frames = (samples + clock.hopSamples() - 1) / clock.hopSamples();
      while (measured < frames) {
        Arrays.fill(buffer, 2 * filled, buffer.length, 0);
        measureAndSlide();
      }
    }

    private void measureAndSlide() {
      fft.covariances(buffer, 0, scale, left, right, cross);
      measure();
      measured++;
      int kept = window - clock.hopSamples();
      System.arraycopy(buffer, 2 * clock.hopSamples(), buffer, 0, 2 * kept);
      filled = kept;
    }

    abstract void measure();
  }

  private static final class FieldFrames extends Frames {
    private static final int WINDOW = 4096;
    private static final int[] BIN_OF_K = binOfK();

    private final StepList levels = new StepList(-LevelMeter.FLOOR_DB);
    private final StepList balances = new StepList(1);
    private final StepList likenesses = new StepList(1);
    private final double[] sumLeft = new double[StereoImage.BINS];
    private final double[] sumRight = new double[StereoImage.BINS];
    private final double[] sumCross = new double[StereoImage.BINS];

    FieldFrames() {
      super(StereoImage.CLOCK, WINDOW);
    }

    /** What lies above the highest bin goes nowhere. */
    private static int[] binOfK() {
      double top = StereoImage.edgeHz(StereoImage.BINS);
      int[] bins = new int[(int) (top / StereoImage.FFT_BIN_HZ) + 1];
      for (int k = 1; k < bins.length; k++) {
        bins[k] = StereoImage.binOf(k * StereoImage.FFT_BIN_HZ);
      }
      return bins;
    }

    @Override
    void measure() {
      Arrays.fill(sumLeft, 0);
      Arrays.fill(sumRight, 0);
      Arrays.fill(sumCross, 0);
      for (int k = 1; k < BIN_OF_K.length; k++) {
        int bin = BIN_OF_K[k];
        sumLeft[bin] += left[k];
        sumRight[bin] += right[k];
        sumCross[bin] += cross[k];
      }
      for (int bin = 0; bin < StereoImage.BINS; bin++) {
        double both = sumLeft[bin] + sumRight[bin];
        boolean silent = both <= 2e-12;
        levels.add(decibels(both / 2));
        balances.add(silent ? 0 : (sumRight[bin] - sumLeft[bin]) / both);
        likenesses.add(silent ? 1 : 2 * sumCross[bin] / both);
      }
    }
  }

  private static final class QuickFrames extends Frames {
    private static final int WINDOW = 1024;
    private static final int[] END_OF_BAND = endOfBand();

    private final StepList levels = new StepList(-LevelMeter.FLOOR_DB);

    QuickFrames() {
      super(StereoImage.QUICK_CLOCK, WINDOW);
    }

    private static int[] endOfBand() {
      int[] ends = new int[StereoImage.QUICK_BANDS];
      for (int band = 0; band < ends.length; band++) {
        double top =
            StereoImage.quickEdgeHz(band + 1) * WINDOW / StereoImage.QUICK_CLOCK.sampleRateHz();
        ends[band] = (int) Math.min(WINDOW / 2 + 1, Math.ceil(top));
      }
      return ends;
    }

    @Override
    void measure() {
      enter(left);
      enter(right);
    }

    private void enter(float[] power) {
      int k = 1;
      for (int end : END_OF_BAND) {
        double sum = 0;
        while (k < end) {
          sum += power[k++];
        }
        levels.add(decibels(sum));
      }
    }
  }

  /** A quarter of the halved rate, kept sample by sample. */
  private static final class LowWave {
    private static final int REST = 100;
    private final StepList samples = new StepList(1);
    private final Halving first = new Halving();
    private final Halving second = new Halving();
    private float[] halved = new float[REST];
    private float[] quartered = new float[REST];

    void accept(float[] mid, int count) {
      if (halved.length < count / 2 + REST) {
        halved = new float[count / 2 + REST];
        quartered = new float[count / 4 + REST];
      }
      keep(second.push(halved, first.push(mid, count, halved), quartered));
    }

    void finish() {
      keep(second.push(halved, first.finish(halved), quartered));
      keep(second.finish(quartered));
    }

    private void keep(int count) {
      for (int i = 0; i < count; i++) {
        samples.add(quartered[i]);
      }
    }
  }
}
