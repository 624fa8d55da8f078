package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.SongSection;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.Mode;

/**
 * The key in which one section's own chords live, where that is another than the one read: a key is
 * read off the whole song and rather stays, so that a bridge of eight bars elsewhere seldom gets
 * its own. Told only where the section's chords leave no doubt: all of them belong to the new key,
 * its dominant goes home within the section, which sets out from the new tonic or ends on it, many
 * are foreign to the old key, and the old tonic does not sound.
 *
 * @param cadence place of the dominant that goes home
 * @param foreignShare of the section's time in which the chord does not belong to the old key
 */
record SectionKey(Key home, Key key, int cadence, double foreignShare, List<ChordStep> steps) {
  /** Roots above the tonic on which a major key, or any minor one, has a major or minor triad. */
  private static final Set<Integer> MAJOR_ON_MAJOR = Set.of(0, 5, 7);

  private static final Set<Integer> MINOR_ON_MAJOR = Set.of(2, 4, 9);
  private static final Set<Integer> MAJOR_ON_MINOR = Set.of(3, 5, 7, 8, 10);
  private static final Set<Integer> MINOR_ON_MINOR = Set.of(0, 5, 7);

  private static final int FEWEST_CHORDS = 4;

  /**
   * @param leastForeign share of the section that must be foreign to the old key
   * @param mostOutside share of it that may be foreign to the new one
   */
  static Optional<SectionKey> of(
      ChordPath path, SongSection section, double leastForeign, double mostOutside) {
    List<Integer> places = path.within(section.span());
    List<ChordStep> steps = places.stream().map(path::get).toList();
    if (steps.stream().map(step -> step.chord().root().pitchClass()).distinct().count()
        < FEWEST_CHORDS) {
      return Optional.empty();
    }
    Key home = steps.get(0).key();
    double foreign = outside(steps, home.tonic().pitchClass(), home.mode().hasMinorThird());
    if (foreign < leastForeign || sounds(steps, home)) {
      return Optional.empty();
    }
    List<SectionKey> found = new ArrayList<>();
    for (int i = 0; i + 1 < places.size(); i++) {
      ChordStep dominant = steps.get(i);
      ChordStep tonic = steps.get(i + 1);
      int root = tonic.chord().root().pitchClass();
      boolean goesHome =
          path.goesOn(places.get(i))
              && dominant.major()
              && Math.floorMod(dominant.chord().root().pitchClass() - root, 12) == 7
              && (tonic.major() || tonic.minor());
      boolean frames = hasRoot(steps.get(0), root) || hasRoot(steps.get(steps.size() - 1), root);
      if (goesHome && frames && outside(steps, root, tonic.minor()) <= mostOutside) {
        Key key = new Key(tonic.chord().root(), tonic.minor() ? Mode.NATURAL_MINOR : Mode.MAJOR);
        found.add(new SectionKey(home, key, places.get(i), foreign, steps));
      }
    }
    // The last one: it is what the section comes to.
    return found.isEmpty() ? Optional.empty() : Optional.of(found.get(found.size() - 1));
  }

  /** How surely the chords are those they are called, on the whole. */
  double sureOfChords() {
    return steps.stream().mapToDouble(ChordStep::sureOfTriad).average().orElse(0);
  }

  private static boolean hasRoot(ChordStep step, int pitchClass) {
    return step.chord().root().pitchClass() == pitchClass;
  }

  private static boolean sounds(List<ChordStep> steps, Key home) {
    return steps.stream()
        .anyMatch(
            step ->
                hasRoot(step, home.tonic().pitchClass())
                    && step.minor() == home.mode().hasMinorThird());
  }

  private static double outside(List<ChordStep> steps, int tonic, boolean minor) {
    double all = 0;
    double outside = 0;
    for (ChordStep step : steps) {
      all += step.span().lengthSeconds();
      outside += belongs(step.chord(), tonic, minor) ? 0 : step.span().lengthSeconds();
    }
    return outside / all;
  }

  private static boolean belongs(Chord chord, int tonic, boolean minor) {
    int root = Math.floorMod(chord.root().pitchClass() - tonic, 12);
    if (chord.quality().hasMajorThird()) {
      return (minor ? MAJOR_ON_MINOR : MAJOR_ON_MAJOR).contains(root);
    }
    if (chord.quality().hasMinorThird()) {
      boolean diminished = chord.quality().contains(6) && !chord.quality().contains(7);
      return diminished
          ? root == (minor ? 2 : 11) || root == 11
          : (minor ? MINOR_ON_MINOR : MINOR_ON_MAJOR).contains(root);
    }
    return true;
  }
}
