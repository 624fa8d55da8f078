package undersong.reading;

/** What a placed sound is. */
public enum SoundSource {
  /** The leading tune. */
  LEAD,
  /** A pitched sound of the accompaniment or a further voice. */
  LINE,
  /** Drums and other struck sounds without pitch. */
  STRUCK;

  public String words() {
    return name().toLowerCase(java.util.Locale.ROOT);
  }
}
