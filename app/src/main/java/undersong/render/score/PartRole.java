package undersong.render.score;

/** What a part is to the listener. */
public enum PartRole {
  BASS,
  MELODY,
  /** A second voice that sings or plays with, or answers, the melody. */
  VOICE,
  /** An instrumental line worth following: arpeggio, riff, inner voice. */
  LINE,
  ACCOMPANIMENT,
  DRUMS,
  /** Noise, risers, doublings below the bass: never a note of the reading. */
  EFFECT
}
