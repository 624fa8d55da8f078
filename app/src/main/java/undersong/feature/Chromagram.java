package undersong.feature;

/**
 * Folds a log-frequency spectrum into pitch classes.
 *
 * <p><b>In:</b> a spectrum of 264 bins as {@link Features#longSpectrum} has it, the tuning, and the
 * range of frequencies that counts. <br>
 * <b>Out:</b> 12 bins per frame on the spectrum's clock, C = 0 ... B = 11; the sum of what stands
 * out of each octave's background. Not normalized: a quiet frame has small values. <br>
 * <b>Silence:</b> zeros. <br>
 * <b>Cost:</b> O(frames * bins).
 *
 * <p>Taking a running mean over an octave out of the log spectrum keeps noise and drums from
 * filling all twelve classes. Source of that step: M. Mauch and S. Dixon, "Approximate note
 * transcription for the improved identification of difficult chords", ISMIR 2010 (from memory).
 * Departs from it: no running deviation, no note dictionary.
 */
public final class Chromagram {
  /** The range in which chords are heard. */
  public static final double CHORD_LOW_HZ = 110;

  public static final double CHORD_HIGH_HZ = 1760;

  /** The range of bass lines: from the lowest string of a five-string bass to middle C. */
  public static final double BASS_LOW_HZ = 30;

  public static final double BASS_HIGH_HZ = 262;

  private static final int BACKGROUND_BINS = 18;
  private static final int LOWEST_PITCH = 21;

  private Chromagram() {}

  public static FrameMatrix chords(FrameMatrix spectrum, double tuningCents) {
    return of(spectrum, tuningCents, CHORD_LOW_HZ, CHORD_HIGH_HZ);
  }

  public static FrameMatrix bass(FrameMatrix spectrum, double tuningCents) {
    return of(spectrum, tuningCents, BASS_LOW_HZ, BASS_HIGH_HZ);
  }

  /**
   * @param spectrum log1p magnitudes, bin b centered at {@code 27.5 * 2^((b - 1) / 36)} Hz
   * @param tuningCents how far the recording's A lies above 440 Hz
   * @param lowHz bins centered below count nothing
   * @param highHz bins centered above count nothing
   */
  public static FrameMatrix of(
      FrameMatrix spectrum, double tuningCents, double lowHz, double highHz) {
    if (spectrum.bins() != EarSpectra.TONAL_BINS) {
      throw new IllegalArgumentException(
          "The spectrum has %d bins; a chromagram is made of %d. Maybe it is a rhythm spectrum."
              .formatted(spectrum.bins(), EarSpectra.TONAL_BINS));
    }
    if (!(lowHz > 0 && highHz > lowHz) || !Double.isFinite(tuningCents)) {
      throw new IllegalArgumentException(
          "Range %s to %s Hz at %s cents: it must rise from above 0 Hz, and the tuning be finite."
              .formatted(lowHz, highHz, tuningCents));
    }
    int bins = spectrum.bins();
    int[] pitchClass = new int[bins];
    float[] weight = new float[bins];
    for (int bin = 0; bin < bins; bin++) {
      double hz = 27.5 * Math.pow(2, (bin - 1) / 36.0);
      double pitch = LOWEST_PITCH + (bin - 1) / 3.0 - tuningCents / 100;
      long nearest = Math.round(pitch);
      double inTune = Math.cos(Math.PI * (pitch - nearest));
      pitchClass[bin] = (int) Math.floorMod(nearest, 12L);
      weight[bin] = hz < lowHz || hz > highHz ? 0 : (float) (inTune * inTune);
    }
    float[] frame = new float[bins];
    float[] out = new float[spectrum.frames() * 12];
    for (int i = 0; i < spectrum.frames(); i++) {
      spectrum.copyFrame(i, frame);
      fold(frame, pitchClass, weight, out, i * 12);
    }
    return FrameMatrix.of(spectrum.clock(), 12, out);
  }

  private static void fold(
      float[] frame, int[] pitchClass, float[] weight, float[] out, int outAt) {
    double running = 0;
    int from = 0;
    int to = 0; // the background covers [from, to)
    for (int bin = 0; bin < frame.length; bin++) {
      while (to < Math.min(frame.length, bin + BACKGROUND_BINS + 1)) {
        running += frame[to++];
      }
      while (from < bin - BACKGROUND_BINS) {
        running -= frame[from++];
      }
      if (weight[bin] > 0) {
        double above = frame[bin] - running / (to - from);
        out[outAt + pitchClass[bin]] += weight[bin] * (float) Math.max(0, above);
      }
    }
  }
}
