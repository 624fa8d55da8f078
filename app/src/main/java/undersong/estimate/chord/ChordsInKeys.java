package undersong.estimate.chord;

import undersong.theory.ChordShares;

/** How common each of the decoder's chords is in each of the 24 major and minor keys. */
final class ChordsInKeys {
  static final int KEYS = 24;

  private static final double NO_CHORD_SHARE = 0.005;

  /** {@code [key][state]}: log-probability; keys 0 to 11 major, 12 to 23 minor. */
  static final float[][] LOG = logs();

  /** {@code [old root][new root]}, 12 = no chord: log of how much likelier than by chance. */
  static final float[][] LOG_MOTION = logMotion();

  private ChordsInKeys() {}

  private static float[][] logs() {
    float[][] logs = new float[KEYS][ChordStates.COUNT];
    for (int key = 0; key < KEYS; key++) {
      for (int state = 0; state < ChordStates.NO_CHORD; state++) {
        double share =
            ChordShares.share(key >= 12, ChordStates.root(state) - key, ChordStates.quality(state));
        logs[key][state] = (float) Math.log(share);
      }
      logs[key][ChordStates.NO_CHORD] = (float) Math.log(NO_CHORD_SHARE);
    }
    return logs;
  }

  private static float[][] logMotion() {
    float[][] logs = new float[13][13];
    for (int from = 0; from < 12; from++) {
      for (int to = 0; to < 12; to++) {
        logs[from][to] = (float) Math.log(ChordShares.motion(to - from));
      }
    }
    return logs;
  }
}
