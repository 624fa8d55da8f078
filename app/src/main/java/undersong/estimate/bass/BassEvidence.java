package undersong.estimate.bass;

import undersong.time.FrameClock;

/** What the low register says, however it was heard; the decoder takes nothing else. */
final class BassEvidence {
  static final int LOWEST_PITCH = 24;
  static final int PITCHES = 37;

  /** State in which no bass sounds. */
  static final int NO_BASS = PITCHES;

  private final FrameClock clock;
  private final float[][] states;
  private final float[][] onsets;
  private final double restrikeOnset;

  /**
   * All arrays are taken over, not copied.
   *
   * @param states {@code [frame][PITCHES + 1]}: log-likelihood of each pitch and of no bass
   * @param onsets {@code [frame][PITCHES]}: how strongly a note of that pitch begins, 0 to 1
   * @param restrikeOnset from which a pitch that sounds already counts as struck again
   */
  BassEvidence(FrameClock clock, float[][] states, float[][] onsets, double restrikeOnset) {
    this.clock = clock;
    this.states = states;
    this.onsets = onsets;
    this.restrikeOnset = restrikeOnset;
  }

  FrameClock clock() {
    return clock;
  }

  int frames() {
    return states.length;
  }

  float[][] copyOfStates() {
    float[][] copy = new float[states.length][];
    for (int t = 0; t < copy.length; t++) {
      copy[t] = states[t].clone();
    }
    return copy;
  }

  float onset(int frame, int pitch) {
    return onsets[frame][pitch];
  }

  double restrikeOnset() {
    return restrikeOnset;
  }
}
