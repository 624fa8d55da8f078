package undersong.expectation;

import java.util.List;
import undersong.expectation.ChordFamily.Third;

/**
 * The questions a chord answers, each predicted by counts of its own; the next is asked knowing the
 * answers before it.
 *
 * <p>Source: D. Conklin, I. Witten, "Multiple Viewpoint Systems for Music Prediction", J. New Music
 * Research 24(1), 1995 (from memory).
 */
// The tables count by the order of these constants; it is written down in them.
@SuppressWarnings("EnumOrdinal")
enum Viewpoint {
  /** Degree and third. */
  HARMONY(36),
  /** Sevenths and altered fifths, knowing degree and third. */
  FAMILY(ChordFamily.values().length),
  /** The lowest note, knowing the chord. */
  BASS(12),
  /** Half-beats since the chord before, knowing where in the bar that was. */
  ARRIVAL(65);

  /** Symbols a context may hold, at most. */
  static final int LONGEST_CONTEXT = 8;

  private static final int LONGEST_WAIT = 64;
  private static final int UNKNOWN = -1;

  private final int symbols;

  Viewpoint(int symbols) {
    this.symbols = symbols;
  }

  /** What this viewpoint calls a chord: 0 to symbols - 1. */
  int symbol(KeyedChord chord, HeardChord heard) {
    return switch (this) {
      case HARMONY -> harmony(chord);
      case FAMILY -> chord.family().ordinal();
      case BASS -> chord.bassSemitones();
      case ARRIVAL -> wait(heard);
    };
  }

  /** Odds before anything was counted: even among what is possible. */
  double[] base(KeyedChord chord) {
    double[] base = new double[symbols];
    int possible = 0;
    for (int s = 0; s < symbols; s++) {
      possible += isPossible(s, chord) ? 1 : 0;
    }
    for (int s = 0; s < symbols; s++) {
      base[s] = isPossible(s, chord) ? 1.0 / possible : 0;
    }
    return base;
  }

  private boolean isPossible(int symbol, KeyedChord chord) {
    return this != FAMILY || ChordFamily.values()[symbol].third() == chord.family().third();
  }

  /**
   * What counts as the same place in other songs, nearest first.
   *
   * @param chord the chord asked for; viewpoints read only the answers before their own
   */
  int[] context(KeyedChord chord, HeardChord heard, List<HeardChord> before) {
    int known =
        switch (this) {
          case HARMONY -> heard.minor() ? 1 : 0;
          case FAMILY -> harmony(chord);
          case BASS -> harmony(chord) * ChordFamily.values().length + chord.family().ordinal();
          case ARRIVAL -> before.isEmpty() ? UNKNOWN : place(before.get(before.size() - 1));
        };
    return context(known, 0, before);
  }

  /**
   * What counts as the same place in this song. How long the chord before lasted tells a repeat
   * from the end of a section: for {@link #HARMONY} it stands behind that chord.
   */
  int[] contextInSong(
      KeyedChord chord, HeardChord heard, List<HeardChord> before, boolean knowingWhen) {
    boolean when = this == HARMONY && knowingWhen && !before.isEmpty();
    if (this != HARMONY) {
      return context(chord, heard, before);
    }
    return context(when ? wait(heard) : UNKNOWN, Math.min(1, before.size()), before);
  }

  /** The chords before, nearest first, with one more symbol at a place among them. */
  private int[] context(int inserted, int at, List<HeardChord> before) {
    int past = Math.min(LONGEST_CONTEXT - 1, before.size());
    int[] context = new int[past + 1];
    for (int i = 0; i < past; i++) {
      context[i < at ? i : i + 1] = past(before.get(before.size() - 1 - i));
    }
    context[at] = inserted;
    return context;
  }

  private int past(HeardChord heard) {
    return switch (this) {
      case HARMONY -> harmony(heard.chord());
      case FAMILY, BASS ->
          harmony(heard.chord()) * ChordFamily.values().length + heard.chord().family().ordinal();
      case ARRIVAL -> wait(heard);
    };
  }

  /** The plainest chord that {@link #HARMONY} calls so: a triad or open fifth on its root. */
  static KeyedChord plainest(int harmony) {
    ChordFamily family =
        switch (Third.values()[harmony % Third.values().length]) {
          case MAJOR -> ChordFamily.MAJOR;
          case MINOR -> ChordFamily.MINOR;
          case NONE -> ChordFamily.OPEN;
        };
    return new KeyedChord(harmony / Third.values().length, family, 0);
  }

  private static int harmony(KeyedChord chord) {
    return Third.values().length * chord.degreeSemitones() + chord.family().third().ordinal();
  }

  private static int wait(HeardChord heard) {
    return Math.min(LONGEST_WAIT, heard.place().waited());
  }

  private static int place(HeardChord heard) {
    return 100 * heard.place().beatsInBar() + heard.place().halfBeat();
  }
}
