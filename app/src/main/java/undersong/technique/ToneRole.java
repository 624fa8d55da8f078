package undersong.technique;

/** What a note does against the chord that sounds with it. */
public enum ToneRole {
  /** Root, third or fifth; the seventh of a seventh chord. */
  CHORD_TONE(true),
  /** A foreign note that rests: ninth, eleventh, thirteenth, a seventh the chord does not hold. */
  TENSION(false),
  /** Short, reached and left by step in one direction. */
  PASSING(false),
  /** Short, reached and left by step, back to where it came from. */
  NEIGHBOUR(false),
  /** Held or struck again from the chord before, where it belonged, and led down or up by step. */
  SUSPENSION(false),
  /** Comes early: the next chord holds it. */
  ANTICIPATION(false),
  /** Reached by leap on a strong beat, led on by step. */
  LEANING(false),
  /** Foreign and short without being led to or on. */
  FREE(false);

  private final boolean belongs;

  ToneRole(boolean belongs) {
    this.belongs = belongs;
  }

  /** Whether the chord holds the note. */
  public boolean belongs() {
    return belongs;
  }
}
