package undersong.technique;

import undersong.reading.NoteEvent;
import undersong.theory.ChordDegree;
import undersong.theory.NoteName;
import undersong.theory.ScaleDegree;
import undersong.theory.Spelling;
import undersong.theory.SyllableSettings;
import undersong.theory.Syllables;
import undersong.time.Span;

/**
 * A note, or the part of it, that sounds with one chord.
 *
 * @param noteIndex of the note among those of its voice
 * @param stepIndex of the chord on the chord path
 * @param span while both sound
 * @param beats that span lasts
 * @param strong whether it begins on a strong beat
 * @param struck whether the note begins here; else it is held over from the chord before
 * @param overRoot what it is to the chord: 9, #11, b3
 * @param semitonesOverBass 0 to 11
 */
public record Tone(
    NoteEvent note,
    int noteIndex,
    ChordStep step,
    int stepIndex,
    Span span,
    double beats,
    boolean strong,
    boolean struck,
    ChordDegree overRoot,
    int semitonesOverBass,
    ToneRole role) {
  /** The note's name in the key. */
  public NoteName name() {
    return Spelling.name(note.pitchClass(), step.key(), step.chord());
  }

  /** Its degree above the tonic, against the major scale. */
  public ScaleDegree degree() {
    return ScaleDegree.of(step.key().tonic(), name());
  }

  public String syllable(SyllableSettings settings) {
    return Syllables.print(name(), step.key(), settings);
  }

  /** That both note and chord are right. */
  public double sure() {
    return note.probability() * step.sureOfTriad();
  }
}
