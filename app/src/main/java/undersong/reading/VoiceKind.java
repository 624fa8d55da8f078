package undersong.reading;

/** What a second voice does beside the lead. */
public enum VoiceKind {
  /** Moves with the lead at another interval. */
  HARMONY("harmony"),
  /** Sings the lead's own notes with it. */
  UNISON_DOUBLE("unison double"),
  /** Sings the lead's notes an octave or more away. */
  OCTAVE_DOUBLE("octave double"),
  /** A short line in the gaps of the lead. */
  AD_LIB("ad-lib");

  private final String words;

  VoiceKind(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
