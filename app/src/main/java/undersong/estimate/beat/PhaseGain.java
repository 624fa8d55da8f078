package undersong.estimate.beat;

import java.util.Arrays;

/**
 * Worth of a beat on each frame without a word on which half of the beat is the beat: players lean
 * on either for whole sections, and a chain over the plain worth slips by half a beat to follow
 * them, though the band goes on counting.
 */
final class PhaseGain {
  /** To either side of a beat that the listener placed, the chain is free to move to its phase. */
  private static final int FREE_BEATS = 8;

  private PhaseGain() {}

  /**
   * What speaks for a frame together with what speaks for the frames half a beat before and after.
   */
  static double[] folded(double[] gain, TempoCurve curve) {
    double[] folded = new double[gain.length];
    for (int frame = 0; frame < gain.length; frame++) {
      double half = curve.periodAt(frame) / 2;
      folded[frame] = gain[frame] + (at(gain, frame - half) + at(gain, frame + half)) / 2;
    }
    return folded;
  }

  /**
   * What speaks for frames near the beats of a pulse: all of it on a beat, nothing from a quarter
   * of a beat away.
   *
   * @param said frames around which everything counts
   */
  static double[] near(double[] gain, double[] beatFrames, double[] said) {
    double[] near = gain.clone();
    int beat = 0;
    int last = beatFrames.length - 2;
    for (int frame = 0; frame < near.length && last >= 0; frame++) {
      while (beat < last && beatFrames[beat + 1] <= frame) {
        beat++;
      }
      double period = beatFrames[beat + 1] - beatFrames[beat];
      double place = (frame - beatFrames[beat]) / period;
      if (!isFree(frame, said, FREE_BEATS * period)) {
        near[frame] *= Math.max(0, Math.cos(2 * Math.PI * place));
      }
    }
    return near;
  }

  private static boolean isFree(int frame, double[] said, double reach) {
    return Arrays.stream(said).anyMatch(at -> Math.abs(at - frame) <= reach);
  }

  private static double at(double[] gain, double frame) {
    int before = (int) Math.floor(frame);
    if (before < 0 || before + 1 >= gain.length) {
      return 0;
    }
    double share = frame - before;
    return (1 - share) * gain[before] + share * gain[before + 1];
  }
}
