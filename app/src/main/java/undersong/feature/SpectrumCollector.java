package undersong.feature;

import undersong.time.FrameClock;

/**
 * Keeps what later stages need of the passing spectra: onset strength from the rhythm spectrum, and
 * the longest and the shortest tonal spectrum thinned to 25 frames a second.
 *
 * <p>A thinned frame is centered where every second original frame is, and is the average of that
 * frame and its two neighbors, which count half.
 */
final class SpectrumCollector implements EarSpectraSink {
  static final FrameClock CLOCK =
      new FrameClock(EarSpectraMaker.SAMPLE_RATE_HZ, EarSpectraMaker.HOP_SAMPLES);
  static final FrameClock THIN_CLOCK =
      new FrameClock(EarSpectraMaker.SAMPLE_RATE_HZ, 2 * EarSpectraMaker.HOP_SAMPLES);

  /** Values go up to 16, which no spectrum of a recording at RMS 0.1 reaches. */
  private static final float STEP = 1f / 2048;

  private final OnsetStrength onsets;
  private final Thinned longest;
  private final Thinned shortest;

  SpectrumCollector(int frames) {
    onsets = new OnsetStrength(frames);
    longest = new Thinned(frames);
    shortest = new Thinned(frames);
  }

  @Override
  public void accept(EarSpectra chunk) {
    onsets.accept(chunk);
    longest.accept(chunk.tonal()[0], chunk.frames());
    shortest.accept(chunk.tonal()[2], chunk.frames());
  }

  OnsetStrength onsets() {
    return onsets;
  }

  FrameMatrix longSpectrum() {
    return longest.finish();
  }

  FrameMatrix shortSpectrum() {
    return shortest.finish();
  }

  private static final class Thinned {
    private static final int BINS = EarSpectra.TONAL_BINS;
    private final short[] steps;
    private final float[] sums = new float[BINS];
    private int frame;

    Thinned(int frames) {
      steps = new short[(frames + 1) / 2 * BINS];
    }

    void accept(float[] spectra, int frames) {
      for (int i = 0; i < frames; i++, frame++) {
        boolean kept = frame % 2 == 0;
        for (int bin = 0; bin < BINS; bin++) {
          float value = spectra[i * BINS + bin];
          sums[bin] += kept ? value / 2 : value / 4;
        }
        if (!kept) {
          write(frame / 2);
          for (int bin = 0; bin < BINS; bin++) {
            sums[bin] = spectra[i * BINS + bin] / 4;
          }
        }
      }
    }

    FrameMatrix finish() {
      if (frame % 2 == 1) {
        write(frame / 2);
      }
      return FrameMatrix.ofSteps(THIN_CLOCK, BINS, STEP, steps);
    }

    private void write(int thinFrame) {
      for (int bin = 0; bin < BINS; bin++) {
        steps[thinFrame * BINS + bin] =
            (short) Math.min(Short.MAX_VALUE, Math.round(sums[bin] / STEP));
      }
    }
  }
}
