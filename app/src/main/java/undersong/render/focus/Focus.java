package undersong.render.focus;

/** What of a recording is listened to by itself. */
public enum Focus {
  /** What lies below some 250 Hz, an octave higher; time stays. */
  LOW_OCTAVE_UP,
  /** What sounds alike in both channels. */
  MIDDLE,
  /** What does not. */
  SIDES,
  /** The left channel, in both ears. */
  LEFT,
  /** The right channel, in both ears. */
  RIGHT,
  /** Sounds that stay. */
  HELD,
  /** Strokes and consonants. */
  STRUCK;

  public String words() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
  }
}
