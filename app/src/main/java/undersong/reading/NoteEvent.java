package undersong.reading;

import undersong.time.Span;

/**
 * One sounding note.
 *
 * @param midiPitch 69 = A4 at the recording's own tuning; fractional where it lies between
 * @param probability that pitch and onset are right
 */
public record NoteEvent(Span span, double midiPitch, double probability) {
  public NoteEvent {
    if (!(midiPitch >= 0 && midiPitch <= 127)) {
      throw new IllegalArgumentException(
          "MIDI pitch %s must lie within 0 to 127.".formatted(midiPitch));
    }
    Probability.check(probability);
  }

  /** Nearest pitch class, C = 0. */
  public int pitchClass() {
    return Math.floorMod((int) Math.round(midiPitch), 12);
  }

  /** The note without how sure it is. */
  Object essence() {
    return java.util.List.of(span, midiPitch);
  }
}
