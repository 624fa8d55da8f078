package undersong.feature;

import java.util.List;
import undersong.kernel.RealFft;
import undersong.kernel.TriangleBank;
import undersong.kernel.Windows;

/**
 * Computes log-frequency spectra from samples at 22,050 Hz, as {@code training/FEATURES.md} states
 * them. Holds scratch space: one object per thread.
 */
final class EarSpectraMaker {
  static final int SAMPLE_RATE_HZ = 22_050;
  static final int HOP_SAMPLES = 441;
  static final int LONGEST_WINDOW = 16_384;

  private static final double GAIN = 1000;

  private static final List<Shape> TONAL =
      List.of(Shape.tonal(LONGEST_WINDOW), Shape.tonal(8192), Shape.tonal(4096));
  private static final Shape RHYTHM =
      new Shape(2048, new TriangleBank(2048, SAMPLE_RATE_HZ, 55, 12, EarSpectra.RHYTHM_BINS, 0));

  /** A window length and its filters, shared by all threads. */
  private record Shape(int window, TriangleBank bank) {
    static Shape tonal(int window) {
      return new Shape(
          window, new TriangleBank(window, SAMPLE_RATE_HZ, 27.5, 36, EarSpectra.TONAL_BINS, -1));
    }
  }

  private final Plane[] tonal = TONAL.stream().map(Plane::new).toArray(Plane[]::new);
  private final Plane rhythm = new Plane(RHYTHM);

  /**
   * @param samples read; the center of the first frame lies at {@code center}
   */
  EarSpectra make(float[] samples, int center, int firstFrame, int frames) {
    float[][] planes = new float[tonal.length][];
    for (int p = 0; p < tonal.length; p++) {
      planes[p] = tonal[p].spectra(samples, center, frames);
    }
    return new EarSpectra(firstFrame, frames, planes, rhythm.spectra(samples, center, frames));
  }

  /** One window length with its scratch space. */
  private static final class Plane {
    private final Shape shape;
    private final float[] hann;
    private final RealFft fft;
    private final float[] frame;
    private final float[] power;
    private final float scale;

    Plane(Shape shape) {
      this.shape = shape;
      this.hann = Windows.periodicHann(shape.window);
      this.fft = new RealFft(shape.window);
      this.frame = new float[shape.window];
      this.power = new float[shape.window / 2 + 1];
      double peak = 4.0 / shape.window; // 2 / sum of the window
      this.scale = (float) (peak * peak);
    }

    float[] spectra(float[] samples, int center, int frames) {
      int bins = shape.bank.filters();
      float[] out = new float[frames * bins];
      for (int i = 0; i < frames; i++) {
        int from = center + i * HOP_SAMPLES - shape.window / 2;
        Windows.apply(hann, samples, from, frame);
        fft.power(frame, scale, power);
        shape.bank.logMagnitudes(power, GAIN, out, i * bins);
      }
      return out;
    }
  }
}
