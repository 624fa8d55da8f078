package undersong.feature;

import java.util.Arrays;

/**
 * Spectral flux: the mean half-wave rectified rise of the log rhythm spectrum from frame to frame,
 * over all bins and over three bands.
 *
 * <p>A window of 93 ms sees a stroke before its center reaches it, and the logarithm makes the most
 * of that first glimpse: the rise is largest one to two frames early. Every value is therefore
 * entered one frame later than it was seen, which puts a stroke's peak within one frame of it.
 */
final class OnsetStrength implements EarSpectraSink {
  static final int BANDS = 3;
  private static final int BINS = EarSpectra.RHYTHM_BINS;
  private static final int DELAY_FRAMES = 1;
  private static final int[] BAND_ENDS = {binAt(150), binAt(3000), BINS};

  private final float[] strength;
  private final float[] bands;
  private final float[] before = new float[BINS];
  private int frame;

  OnsetStrength(int frames) {
    strength = new float[frames];
    bands = new float[frames * BANDS];
  }

  @Override
  public void accept(EarSpectra chunk) {
    float[] rhythm = chunk.rhythm();
    for (int i = 0; i < chunk.frames(); i++, frame++) {
      int at = frame + DELAY_FRAMES;
      if (at < strength.length) {
        enter(rhythm, i * BINS, at);
      }
      System.arraycopy(rhythm, i * BINS, before, 0, BINS);
    }
  }

  private void enter(float[] rhythm, int from, int at) {
    float all = 0;
    int bin = 0;
    for (int band = 0; band < BANDS; band++) {
      int start = bin;
      float sum = 0;
      for (; bin < BAND_ENDS[band]; bin++) {
        sum += Math.max(0, rhythm[from + bin] - before[bin]);
      }
      bands[at * BANDS + band] = sum / (bin - start);
      all += sum;
    }
    strength[at] = all / BINS;
  }

  float[] strengths() {
    return strength;
  }

  FrameSeries toSeries() {
    return new FrameSeries(SpectrumCollector.CLOCK, strength);
  }

  FrameMatrix toBands() {
    return FrameMatrix.of(SpectrumCollector.CLOCK, BANDS, Arrays.copyOf(bands, bands.length));
  }

  /** The first rhythm bin centered at or above a frequency. */
  private static int binAt(double hz) {
    return (int) Math.ceil(12 * Math.log(hz / 55) / Math.log(2));
  }
}
