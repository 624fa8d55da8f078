package undersong.estimate.chord;

import static undersong.theory.ChordQuality.*;

import java.util.List;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;

/** The chords the decoder tells apart: twelve roots times the qualities, and no chord. */
final class ChordStates {
  static final List<ChordQuality> QUALITIES =
      List.of(
          MAJOR,
          MINOR,
          DOMINANT_SEVENTH,
          MAJOR_SEVENTH,
          MINOR_SEVENTH,
          DIMINISHED,
          HALF_DIMINISHED_SEVENTH,
          DIMINISHED_SEVENTH,
          AUGMENTED,
          SUSPENDED_SECOND,
          SUSPENDED_FOURTH,
          MAJOR_SIXTH,
          MINOR_SIXTH,
          FIFTH,
          ROOT);

  static final int NO_CHORD = 12 * QUALITIES.size();
  static final int COUNT = NO_CHORD + 1;

  /** Group of each state: its root, or 12 for no chord. */
  static final int[] GROUPS = groups();

  private ChordStates() {}

  private static int[] groups() {
    int[] groups = new int[COUNT];
    for (int state = 0; state < COUNT; state++) {
      groups[state] = state / QUALITIES.size();
    }
    return groups;
  }

  static int of(int root, ChordQuality quality) {
    return Math.floorMod(root, 12) * QUALITIES.size() + QUALITIES.indexOf(quality);
  }

  static int root(int state) {
    return state / QUALITIES.size();
  }

  static ChordQuality quality(int state) {
    return QUALITIES.get(state % QUALITIES.size());
  }

  /** The state that says most of what a symbol says: its root, and the quality nearest to it. */
  static int nearest(ChordSymbol symbol) {
    if (!(symbol instanceof ChordSymbol.Chord chord)) {
      return NO_CHORD;
    }
    int best = 0;
    int fewestDifferences = Integer.MAX_VALUE;
    for (int q = 0; q < QUALITIES.size(); q++) {
      int differences = Integer.bitCount(QUALITIES.get(q).bits() ^ chord.quality().bits());
      if (differences < fewestDifferences) {
        fewestDifferences = differences;
        best = q;
      }
    }
    return chord.root().pitchClass() * QUALITIES.size() + best;
  }
}
