package undersong.theory;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
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
   * @param omittedSemitones members of the quality that are left out: the root (0) or the perfect
   *     fifth (7). A third cannot be left out: the chord then has another quality
   * @param bass the lowest note; equal to the root in root position
   */
  record Chord(
      NoteName root,
      ChordQuality quality,
      Set<Integer> addedSemitones,
      Set<Integer> omittedSemitones,
      NoteName bass)
      implements ChordSymbol {
    public Chord {
      for (int added : addedSemitones) {
        if (added < 1 || added > 21) {
          throw new IllegalArgumentException(
              "Added degree of %d semitones must lie within 1 to 21.".formatted(added));
        }
      }
      for (int omitted : omittedSemitones) {
        if ((omitted != 0 && omitted != 7) || !quality.contains(omitted)) {
          throw new IllegalArgumentException(
              "Omitted member at %d semitones must be the root (0) or the perfect fifth (7) of %s."
                  .formatted(omitted, quality));
        }
      }
      addedSemitones = Collections.unmodifiableSortedSet(new TreeSet<>(addedSemitones));
      omittedSemitones = Collections.unmodifiableSortedSet(new TreeSet<>(omittedSemitones));
    }

    /** A chord with every member of its quality. */
    public Chord(NoteName root, ChordQuality quality, Set<Integer> addedSemitones, NoteName bass) {
      this(root, quality, addedSemitones, Set.of(), bass);
    }

    public boolean isInverted() {
      return bass.pitchClass() != root.pitchClass();
    }

    /** Semitones of the bass above the root, 0 to 11. */
    public int bassSemitones() {
      return Math.floorMod(bass.pitchClass() - root.pitchClass(), 12);
    }

    /** Members and added degrees above the root in rising order; the bass has no part in it. */
    public List<ChordDegree> degrees() {
      List<ChordDegree> degrees = new ArrayList<>(quality.degrees());
      degrees.removeIf(degree -> omittedSemitones.contains(degree.semitones()));
      for (int added : addedSemitones) {
        degrees.add(ChordNaming.spelledAdded(this, added));
      }
      degrees.sort(Comparator.comparingInt(ChordDegree::semitones));
      return degrees;
    }

    /** Members and added degrees as spelled notes, from the root up; the bass has no part in it. */
    public List<NoteName> tones() {
      return degrees().stream().map(degree -> degree.above(root)).distinct().toList();
    }

    /** Sounding pitch classes as bits, bit 0 = C; the bass included. */
    public int pitchClassBits() {
      boolean bassSounds = isInverted() || !omittedSemitones.contains(0);
      int bits = bassSounds ? 1 << bass.pitchClass() : 0;
      for (ChordDegree degree : degrees()) {
        bits |= 1 << Math.floorMod(root.pitchClass() + degree.semitones(), 12);
      }
      return bits;
    }

    public Chord withBass(NoteName newBass) {
      return new Chord(root, quality, addedSemitones, omittedSemitones, newBass);
    }

    /** The same chord, every note the given number of fifths higher on the line. */
    public Chord up(int moreFifths) {
      return new Chord(
          root.up(moreFifths), quality, addedSemitones, omittedSemitones, bass.up(moreFifths));
    }
  }

  /** A chord in root position with nothing added. */
  static Chord of(NoteName root, ChordQuality quality) {
    return new Chord(root, quality, Set.of(), root);
  }

  static Chord of(NoteName root, ChordQuality quality, NoteName bass) {
    return new Chord(root, quality, Set.of(), bass);
  }

  /**
   * Names a heap of notes: the quality that covers most of them, the rest added.
   *
   * @param semitones above the root, 0 to 21; without 0 the root is left out
   */
  static Chord ofSemitones(NoteName root, Set<Integer> semitones, NoteName bass) {
    return ChordNaming.name(root, semitones, bass);
  }
}
