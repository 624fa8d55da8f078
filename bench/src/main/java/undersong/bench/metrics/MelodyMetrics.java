package undersong.bench.metrics;

/**
 * Agreement of the melody, frame by frame at the reference's times.
 *
 * <p>Source: J. Salamon and others, "Melody Extraction from Polyphonic Music Signals", IEEE Signal
 * Processing Magazine 31(2), 2014, as mir_eval implements it.
 *
 * @param voicingRecall of frames with a tune, the share told so
 * @param falseAlarms of frames without, the share said to have one
 * @param rawPitch of frames with a tune, the share within (not at) 50 cents, whatever the voicing
 * @param rawChroma the same, octaves forgiven
 * @param overall of all frames, the share right in voicing and pitch
 */
public record MelodyMetrics(
    double voicingRecall, double falseAlarms, double rawPitch, double rawChroma, double overall) {
  private static final double TOLERANCE_CENTS = 50;

  public static MelodyMetrics of(PitchCurve reference, PitchCurve estimated) {
    int frames = reference.frames();
    double[] cents = new double[frames];
    boolean[] voiced = new boolean[frames];
    estimated.resample(reference.toSeconds(), cents, voiced);
    int tune = 0;
    int found = 0;
    int alarms = 0;
    int pitch = 0;
    int chroma = 0;
    int right = 0;
    for (int i = 0; i < frames; i++) {
      if (!reference.voicedAt(i)) {
        alarms += voiced[i] ? 1 : 0;
        right += voiced[i] ? 0 : 1;
        continue;
      }
      tune++;
      found += voiced[i] ? 1 : 0;
      if (cents[i] == 0) {
        continue;
      }
      double off = cents[i] - reference.centsAt(i);
      double folded = off - 1200 * Math.floor(off / 1200 + 0.5);
      chroma += Math.abs(folded) < TOLERANCE_CENTS ? 1 : 0;
      if (Math.abs(off) < TOLERANCE_CENTS) {
        pitch++;
        right += voiced[i] ? 1 : 0;
      }
    }
    int silent = frames - tune;
    return new MelodyMetrics(
        share(found, tune),
        share(alarms, silent),
        share(pitch, tune),
        share(chroma, tune),
        share(right, frames));
  }

  private static double share(int part, int whole) {
    return whole == 0 ? 0 : (double) part / whole;
  }
}
