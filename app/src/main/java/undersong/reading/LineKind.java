package undersong.reading;

/** How a line of the accompaniment moves and sounds. */
public enum LineKind {
  /** Chord tones one after another in even notes. */
  ARPEGGIO("arpeggio"),
  /** Short notes that die away. */
  PLUCKED("plucked"),
  /** Long notes that stay. */
  HELD("held"),
  /** No line of its own: one voice of chords that are struck or held together. */
  CHORD_VOICE("chord voice");

  private final String words;

  LineKind(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
