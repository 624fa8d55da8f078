package undersong.expectation;

import undersong.theory.ChordSymbol.Chord;
import undersong.theory.NoteName;

/**
 * A chord as far as expectation looks at it, counted from the tonic.
 *
 * @param degreeSemitones root above the tonic, 0 to 11
 * @param bassSemitones lowest note above the root, 0 to 11
 */
public record KeyedChord(int degreeSemitones, ChordFamily family, int bassSemitones) {
  public KeyedChord {
    if (degreeSemitones < 0 || degreeSemitones > 11 || bassSemitones < 0 || bassSemitones > 11) {
      throw new IllegalArgumentException(
          "Root %d semitones above the tonic and bass %d above the root must lie within 0 to 11."
              .formatted(degreeSemitones, bassSemitones));
    }
  }

  public static KeyedChord of(Chord chord, NoteName tonic) {
    return new KeyedChord(
        Math.floorMod(chord.root().pitchClass() - tonic.pitchClass(), 12),
        ChordFamily.of(chord.quality()),
        chord.bassSemitones());
  }
}
