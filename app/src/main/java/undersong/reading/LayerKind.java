package undersong.reading;

/** The layers told apart. */
public enum LayerKind {
  KICK,
  SNARE,
  CYMBAL,
  /** The bass line. */
  BASS,
  /** What sounds below 80 Hz. */
  SUB_BASS,
  /** Chords and pads that go on sounding. */
  HELD,
  /** Pitched sounds that die away at once. */
  PLUCKED,
  /** The leading tune. */
  LEAD,
  /** A second voice beside the lead. */
  FURTHER_VOICE;

  /** Whether it is struck and has no pitch. */
  public boolean drum() {
    return this == KICK || this == SNARE || this == CYMBAL;
  }

  public String words() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
  }
}
