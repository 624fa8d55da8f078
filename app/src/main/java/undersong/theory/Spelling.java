package undersong.theory;

import undersong.theory.ChordSymbol.Chord;

/**
 * Names for sounding pitches, chosen by what they are in the key and chord: the raised leading tone
 * of A minor is G#, the borrowed b6 of C major is Ab, and over E7 in C major the same key is G#.
 *
 * <p>Without a chord a note is written within five fifths below to six above the tonic (b2, b6, b3,
 * b7, the major scale, #4), whatever the mode. Common practice, no source.
 */
public final class Spelling {
  private Spelling() {}

  /** The name of a pitch class in a key. */
  public static NoteName name(int pitchClass, Key key) {
    return NoteName.ofPitchClass(Math.floorMod(pitchClass, 12), key.tonic().fifths());
  }

  /** The name of a pitch class in a key while a chord sounds: members take the chord's spelling. */
  public static NoteName name(int pitchClass, Key key, ChordSymbol sounding) {
    if (sounding instanceof Chord chord) {
      for (NoteName tone : chord.tones()) {
        if (tone.pitchClass() == Math.floorMod(pitchClass, 12)) {
          return tone;
        }
      }
      if (chord.bass().pitchClass() == Math.floorMod(pitchClass, 12)) {
        return chord.bass();
      }
    }
    return name(pitchClass, key);
  }

  /** The name of a passing note foreign to the scale: raised on the way up, lowered going down. */
  public static NoteName passing(int pitchClass, Key key, boolean rising) {
    NoteName inKey = name(pitchClass, key);
    if (key.contains(pitchClass)) {
      return inKey;
    }
    int semitoneBefore = Math.floorMod(rising ? pitchClass - 1 : pitchClass + 1, 12);
    if (!key.contains(semitoneBefore)) {
      return inKey;
    }
    return name(semitoneBefore, key).up(rising ? 7 : -7);
  }

  /** A sounding pitch, written in its key and chord. */
  public static SpelledPitch pitch(int midi, Key key, ChordSymbol sounding) {
    return SpelledPitch.ofMidi(midi, name(midi, key, sounding));
  }

  /** A sounding pitch, written in its key. */
  public static SpelledPitch pitch(int midi, Key key) {
    return SpelledPitch.ofMidi(midi, name(midi, key));
  }

  /**
   * The same chord written in a key. A diminished chord on a note foreign to the scale is written
   * as leading tone of the note above it (C#dim, not Dbdim, in C major).
   */
  public static Chord chord(Chord chord, Key key) {
    int pitchClass = chord.root().pitchClass();
    boolean diminished = chord.quality().contains(3) && chord.quality().contains(6);
    int noteAbove = Math.floorMod(pitchClass + 1, 12);
    boolean leads = diminished && !key.contains(pitchClass) && key.contains(noteAbove);
    int semitoneBelow = 5;
    NoteName root = leads ? name(noteAbove, key).up(semitoneBelow) : name(pitchClass, key);
    Chord upright =
        new Chord(root, chord.quality(), chord.addedSemitones(), chord.omittedSemitones(), root);
    return upright.withBass(name(chord.bass().pitchClass(), key, upright));
  }
}
