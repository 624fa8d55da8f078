package undersong.theory;

import java.util.Collections;
import java.util.Set;
import java.util.TreeSet;

/**
 * What a chord is called: a root with a quality, further degrees and a bass; or no chord; or a
 * chord nobody can name. Written in Harte's grammar for exchange and as a lead sheet for people.
 */
public sealed interface ChordSymbol {
  NoChord NONE = new NoChord();
  UnknownChord UNKNOWN = new UnknownChord();

  /** Silence, drums alone, or sound without harmony: {@code N}. */
  record NoChord() implements ChordSymbol {
    @Override
    public String toString() {
      return "N";
    }
  }

  /** Harmony that has no name here: {@code X}. */
  record UnknownChord() implements ChordSymbol {
    @Override
    public String toString() {
      return "X";
    }
  }

  /**
   * A named chord.
   *
   * @param addedSemitones degrees sounding beyond the quality, as semitones above the root 1 to 21
   *     (14 = ninth, 2 = second)
   * @param bass the lowest note; equal to the root in root position
   */
  record Chord(NoteName root, ChordQuality quality, Set<Integer> addedSemitones, NoteName bass)
      implements ChordSymbol {
    public Chord {
      for (int added : addedSemitones) {
        if (added < 1 || added > 21) {
          throw new IllegalArgumentException(
              "Added degree of %d semitones must lie within 1 to 21.".formatted(added));
        }
      }
      addedSemitones = Collections.unmodifiableSortedSet(new TreeSet<>(addedSemitones));
    }

    public boolean isInverted() {
      return bass.pitchClass() != root.pitchClass();
    }

    /** Semitones of the bass above the root, 0 to 11. */
    public int bassSemitones() {
      return Math.floorMod(bass.pitchClass() - root.pitchClass(), 12);
    }

    /** Sounding pitch classes as bits, bit 0 = C; the bass included. */
    public int pitchClassBits() {
      int bits = 1 << bass.pitchClass();
      for (int s : quality.semitones()) {
        bits |= 1 << Math.floorMod(root.pitchClass() + s, 12);
      }
      for (int s : addedSemitones) {
        bits |= 1 << Math.floorMod(root.pitchClass() + s, 12);
      }
      return bits;
    }

    public Chord withBass(NoteName newBass) {
      return new Chord(root, quality, addedSemitones, newBass);
    }
  }

  /** A chord in root position with nothing added. */
  static Chord of(NoteName root, ChordQuality quality) {
    return new Chord(root, quality, Set.of(), root);
  }

  static Chord of(NoteName root, ChordQuality quality, NoteName bass) {
    return new Chord(root, quality, Set.of(), bass);
  }
}
