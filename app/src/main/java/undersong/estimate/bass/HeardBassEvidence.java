package undersong.estimate.bass;

import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;

/** Bass evidence from the trained ear: the pitch of the bass line in each frame, and its onsets. */
final class HeardBassEvidence {
  private static final int LOWEST_HEARD = 23;
  private static final int HEARD_PITCHES = 45;
  private static final double FLOOR = 1e-3;

  /** The ear takes the end of a decaying note for no bass: odds of none are lowered by this. */
  private static final double ODDS_OF_NONE = 0.4;

  private HeardBassEvidence() {}

  static BassEvidence of(EarActivations ear, double restrikeOnset) {
    FrameMatrix pitches = ear.head(EarHead.BASS_PITCH);
    FrameMatrix struck = ear.head(EarHead.BASS_ONSET);
    float[][] states = new float[pitches.frames()][BassEvidence.PITCHES + 1];
    float[][] onsets = new float[pitches.frames()][BassEvidence.PITCHES];
    for (int frame = 0; frame < states.length; frame++) {
      double onset = strongest(struck, 2 * frame - 1, 2 * frame + 1);
      for (int p = 0; p < BassEvidence.PITCHES; p++) {
        int bin = BassEvidence.LOWEST_PITCH + p - LOWEST_HEARD;
        double here = pitches.at(frame, bin);
        double soon = frame + 1 < states.length ? pitches.at(frame + 1, bin) : here;
        states[frame][p] = (float) Math.log(here + FLOOR);
        onsets[frame][p] = (float) (onset * Math.max(here, soon));
      }
      states[frame][BassEvidence.NO_BASS] =
          (float) Math.log(ODDS_OF_NONE * pitches.at(frame, HEARD_PITCHES) + FLOOR);
    }
    return new BassEvidence(pitches.clock(), states, onsets, restrikeOnset);
  }

  private static double strongest(FrameMatrix head, int from, int to) {
    double strongest = 0;
    for (int frame = Math.max(0, from); frame <= Math.min(head.frames() - 1, to); frame++) {
      strongest = Math.max(strongest, head.at(frame, 0));
    }
    return strongest;
  }
}
