package undersong.estimate.chord;

/** What sounds in each step, however it was heard; decoders take nothing else from the audio. */
final class ChordEvidence {
  private final float[][] pitchClasses;
  private final float[][] bass;
  private final float[][] states;
  private final boolean[] sounding;

  /**
   * All arrays are taken over, not copied.
   *
   * @param pitchClasses {@code [step][12]}: log-odds that the pitch class belongs to the chord
   * @param bass {@code [step][12]}: how surely the bass plays the pitch class; sums to at most 1,
   *     the rest being "no bass heard"
   * @param sounding per step: whether anything pitched sounds at all
   * @param states {@code [step][state]}: log-likelihood of each chord from a source that names
   *     chords directly, or no rows where there is none
   */
  ChordEvidence(float[][] pitchClasses, float[][] bass, boolean[] sounding, float[][] states) {
    this.pitchClasses = pitchClasses;
    this.bass = bass;
    this.sounding = sounding;
    this.states = states;
  }

  int steps() {
    return pitchClasses.length;
  }

  float[] pitchClasses(int step) {
    return pitchClasses[step];
  }

  float[] bass(int step) {
    return bass[step];
  }

  boolean sounds(int step) {
    return sounding[step];
  }

  boolean namesChords() {
    return states.length > 0;
  }

  float[] states(int step) {
    return states[step];
  }

  /** The same evidence with other pitch classes. */
  ChordEvidence withPitchClasses(float[][] others) {
    return new ChordEvidence(others, bass, sounding, states);
  }
}
