package undersong.estimate.motif;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Keys;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;

/** Chords and keys around a figure, quick to look up. */
final class Setting {
  private final Keys keys;
  private final List<ChordSpan> chords;
  private final double[] chordStarts;
  private final int[] chordBits;

  Setting(Chords chords, Keys keys) {
    this.keys = keys;
    this.chords = chords.spans();
    this.chordStarts =
        this.chords.stream().mapToDouble(chord -> chord.span().startSeconds()).toArray();
    this.chordBits =
        this.chords.stream()
            .mapToInt(span -> span.symbol() instanceof Chord c ? c.pitchClassBits() : 0)
            .toArray();
  }

  private int indexAt(double seconds) {
    int found = Arrays.binarySearch(chordStarts, seconds);
    return found >= 0 ? found : -found - 2;
  }

  Optional<Chord> chordAt(double seconds) {
    int at = indexAt(seconds);
    return at >= 0 && chords.get(at).symbol() instanceof Chord chord
        ? Optional.of(chord)
        : Optional.empty();
  }

  boolean belongs(int pitch, double seconds) {
    int at = indexAt(seconds);
    return at >= 0 && (chordBits[at] & 1 << pitch % 12) != 0;
  }

  Optional<Key> keyAt(double seconds) {
    return keys.keyAt(seconds);
  }

  /** Steps of the scale from the lowest tonic up; a note beside it counts as the step below. */
  static int step(int pitch, Key key) {
    int above = Math.floorMod(pitch - key.tonic().pitchClass(), 12);
    int octave = Math.floorDiv(pitch - key.tonic().pitchClass(), 12);
    int step = 6;
    while (step > 0 && key.mode().semitonesOfStep(step) > above) {
      step--;
    }
    return 7 * octave + step;
  }
}
