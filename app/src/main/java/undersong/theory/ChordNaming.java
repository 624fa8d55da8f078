package undersong.theory;

import java.util.HashSet;
import java.util.Set;
import java.util.TreeSet;
import undersong.theory.ChordSymbol.Chord;

/** Finds the name for notes above a root, and the spelling for what is added to a quality. */
final class ChordNaming {
  private static final int FIFTH = 7;

  private ChordNaming() {}

  /**
   * The quality whose members all sound and that covers most notes; a perfect fifth may be missing
   * where a third sounds. Between equals the one that misses nothing wins, then the simpler.
   */
  static Chord name(NoteName root, Set<Integer> semitones, NoteName bass) {
    if (semitones.isEmpty()) {
      throw new IllegalArgumentException("A chord on %s needs at least one note.".formatted(root));
    }
    ChordQuality best = null;
    int bestRank = -1;
    for (ChordQuality quality : ChordQuality.values()) {
      Set<Integer> members = members(quality);
      Set<Integer> missing = new HashSet<>(members);
      missing.removeAll(semitones);
      boolean rootMissing = missing.remove(0);
      boolean fifthMissing = !quality.hasNoThird() && missing.remove(FIFTH);
      if (missing.isEmpty()) {
        int covered = members.size() - (rootMissing ? 1 : 0) - (fifthMissing ? 1 : 0);
        int rank = 2 * covered + (fifthMissing ? 0 : 1);
        if (rank > bestRank) {
          bestRank = rank;
          best = quality;
        }
      }
    }
    Set<Integer> omitted = members(best);
    omitted.removeAll(semitones);
    Set<Integer> added = new TreeSet<>(semitones);
    added.removeAll(members(best));
    return new Chord(root, best, added, omitted, bass);
  }

  /** The same notes under their simplest name. */
  static Chord simplest(Chord chord) {
    return name(chord.root(), semitones(chord), chord.bass());
  }

  /** Semitones of every member and added degree above the root; a ninth is 14. */
  static Set<Integer> semitones(Chord chord) {
    Set<Integer> semitones = members(chord.quality());
    semitones.removeAll(chord.omittedSemitones());
    semitones.addAll(chord.addedSemitones());
    return semitones;
  }

  static Set<Integer> members(ChordQuality quality) {
    Set<Integer> semitones = new TreeSet<>();
    for (ChordDegree degree : quality.degrees()) {
      semitones.add(degree.semitones());
    }
    return semitones;
  }

  /** Beside a perfect fifth, 6 semitones are a raised fourth and 8 a lowered sixth. */
  static ChordDegree spelledAdded(Chord chord, int semitones) {
    boolean besideFifth =
        chord.quality().contains(FIFTH) && !chord.omittedSemitones().contains(FIFTH);
    if (besideFifth && semitones == 6) {
      return new ChordDegree(4, 1);
    }
    if (besideFifth && semitones == 8) {
      return new ChordDegree(6, -1);
    }
    return ChordDegree.ofSemitones(semitones);
  }
}
