package undersong.expectation;

import java.util.List;

/**
 * The questions a chord answers, each predicted by counts of its own; the next is asked knowing the
 * answers before it. Every context is an array, nearest first.
 *
 * <p>Source: D. Conklin, I. Witten, "Multiple Viewpoint Systems for Music Prediction", J. New Music
 * Research 24(1), 1995 (from memory).
 */
enum Viewpoint {
  /** Degree and third. */
  HARMONY(36, 0),
  /** Sevenths and altered fifths, knowing degree and third. */
  FAMILY(ChordFamily.values().length, 1),
  /** The lowest note, knowing the chord. */
  BASS(12, 1),
  /** Half-beats since the chord before, knowing where in the bar that was. */
  ARRIVAL(65, 1);

  private static final int LONGEST_WAIT = 64;

  private final int symbols;
  private final int known;

  Viewpoint(int symbols, int known) {
    this.symbols = symbols;
    this.known = known;
  }

  int symbols() {
    return symbols;
  }

  /** What this viewpoint calls a chord. */
  int symbol(KeyedChord chord, HeardChord.Place place) {
    return switch (this) {
      case HARMONY -> harmony(chord);
      case FAMILY -> chord.family().ordinal();
      case BASS -> chord.bassSemitones();
      case ARRIVAL -> Math.min(LONGEST_WAIT, place.waited());
    };
  }

  /** The context of a chord that follows on {@code before}. */
  int[] context(KeyedChord chord, List<HeardChord> before) {
    int[] context = new int[known + before.size()];
    if (known > 0) {
      context[0] = known(chord, before);
    }
    for (int i = known; i < context.length; i++) {
      context[i] = past(before.get(before.size() - 1 - (i - known)));
    }
    return context;
  }

  private int known(KeyedChord chord, List<HeardChord> before) {
    return switch (this) {
      case HARMONY -> throw new AssertionError(this);
      case FAMILY -> harmony(chord);
      case BASS -> harmony(chord) * ChordFamily.values().length + chord.family().ordinal();
      case ARRIVAL -> before.isEmpty() ? -1 : place(before.get(before.size() - 1).place());
    };
  }

  private int past(HeardChord heard) {
    return switch (this) {
      case HARMONY, FAMILY, BASS -> harmony(heard.chord());
      case ARRIVAL -> Math.min(LONGEST_WAIT, heard.place().waited());
    };
  }

  private static int harmony(KeyedChord chord) {
    return 3 * chord.degreeSemitones() + chord.family().third().ordinal();
  }

  private static int place(HeardChord.Place place) {
    return 100 * place.beatsInBar() + place.halfBeat();
  }
}
