package undersong.estimate.beat;

import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;

/**
 * Where the harmony changes: by how much the root that the ear hears a little later differs from
 * the one a little before. Drummers lean where they like; chords mostly change on the beat.
 */
final class HarmonyChanges {
  private static final double REACH_SECONDS = 0.12;

  /** To either side of a beat, in frames. */
  private static final int NEAR_FRAMES = 2;

  /** Mean change that is nothing: where one chord sounds throughout, its flicker says no phase. */
  private static final double FLICKER = 0.02;

  private final float[] changes;

  private HarmonyChanges(float[] changes) {
    this.changes = changes;
  }

  /**
   * @param frames how many, at {@link EarHead#FRAMES_PER_SECOND}
   */
  static HarmonyChanges of(EarActivations ear, int frames) {
    FrameMatrix roots = ear.head(EarHead.CHORD_ROOT);
    int each = EarHead.CHORD_ROOT.averagedFrames();
    int reach = (int) Math.round(REACH_SECONDS * EarHead.FRAMES_PER_SECOND / each);
    float[] changes = new float[frames];
    for (int frame = 0; frame < frames; frame++) {
      int before = frame / each - reach;
      int after = frame / each + reach;
      for (int root = 0; before >= 0 && after < roots.frames() && root < roots.bins(); root++) {
        changes[frame] += Math.abs(roots.at(after, root) - roots.at(before, root)) / 2;
      }
    }
    return new HarmonyChanges(changes);
  }

  /** -1 to 1: how much more changes on these beats than half way between them. */
  double favor(PulseHypothesis pulse) {
    double on = mean(pulse.beatFrames());
    double off = mean(pulse.offbeat().beatFrames());
    return (on - off) / (on + off + FLICKER);
  }

  private double mean(double[] beatFrames) {
    double sum = 0;
    for (double beat : beatFrames) {
      int frame = (int) Math.round(beat);
      float most = 0;
      int end = Math.min(changes.length - 1, frame + NEAR_FRAMES);
      for (int i = Math.max(0, frame - NEAR_FRAMES); i <= end; i++) {
        most = Math.max(most, changes[i]);
      }
      sum += most;
    }
    return sum / Math.max(1, beatFrames.length);
  }
}
