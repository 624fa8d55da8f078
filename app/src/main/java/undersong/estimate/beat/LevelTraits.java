package undersong.estimate.beat;

/**
 * What tells the tapped level from half, double and triple of it, as numbers: how fast it is, what
 * sounds on the beat and on its halves, thirds and quarters, whether kick and snare take turns, and
 * after how many beats the rhythm returns.
 */
final class LevelTraits {
  private static final double TYPICAL_BPM = 110;
  static final int COUNT = 36;

  private LevelTraits() {}

  /**
   * @param wide as {@link PulsePattern#widened} gives them
   * @param background mean of each band of {@code wide}
   * @param bpm median tempo of the hypothesis
   * @param tempoStrength of that tempo in the tempo evidence, 0 to 1
   */
  static double[] of(
      PulseHypothesis pulse,
      float[][] wide,
      double[] background,
      double bpm,
      double tempoStrength) {
    PulsePattern pattern = PulsePattern.of(wide, pulse.beatFrames());
    double[] traits = new double[COUNT];
    int out = 0;
    double octaves = Math.log(bpm / TYPICAL_BPM) / Math.log(2);
    traits[out++] = octaves;
    traits[out++] = octaves * octaves;
    traits[out++] = Math.max(0, octaves - 0.7);
    traits[out++] = Math.max(0, -octaves - 0.7);
    traits[out++] = tempoStrength;
    traits[out++] = pulse.shifted() ? 1 : 0;
    for (int band = 0; band < PulsePattern.BANDS; band++) {
      traits[out++] = pattern.mean(0, band) - background[band];
      traits[out++] = pattern.mean(6, band) - background[band];
      traits[out++] = (pattern.mean(4, band) + pattern.mean(8, band)) / 2 - background[band];
      traits[out++] = (pattern.mean(3, band) + pattern.mean(9, band)) / 2 - background[band];
      traits[out++] = Math.abs(pattern.alternation(band));
    }
    traits[out++] = -pattern.alternation(1) * pattern.alternation(2);
    double[] likeness = pattern.likeness(8);
    for (int lag : new int[] {1, 2, 3, 4, 6, 8}) {
      traits[out++] = likeness[lag];
    }
    traits[out++] = pattern.mean(8, 0) - pattern.mean(4, 0);
    traits[out++] = irregularity(pulse.beatFrames());
    traits[out++] = pattern.mean(0, 0) - Math.max(pattern.mean(6, 0), pattern.mean(8, 0));
    return traits;
  }

  private static double irregularity(double[] beatFrames) {
    double sum = 0;
    for (int i = 2; i < beatFrames.length; i++) {
      double here = beatFrames[i] - beatFrames[i - 1];
      double before = beatFrames[i - 1] - beatFrames[i - 2];
      sum += Math.abs(Math.log(here / before));
    }
    return sum / Math.max(1, beatFrames.length - 2);
  }
}
