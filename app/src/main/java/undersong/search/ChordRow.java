package undersong.search;

import java.util.List;
import undersong.search.Wanted.ChordWanted;

/**
 * Chords looked for in a row, made ready for very many songs: one look into a table a chord.
 *
 * <p><b>Cost:</b> to make ready, the number of possible chords times the length of the row.
 */
public final class ChordRow {
  private final boolean[][] accepts;
  private final boolean round;

  /**
   * @param round whether they may begin anywhere in a loop that goes round
   */
  public ChordRow(List<ChordWanted> wanted, boolean round) {
    this.round = round;
    this.accepts = new boolean[wanted.size()][];
    ChordLine possible = ChordLine.everyChord();
    for (int i = 0; i < accepts.length; i++) {
      accepts[i] = new boolean[ChordLine.CODES];
      for (int place = 0; place < possible.size(); place++) {
        accepts[i][possible.code(place)] = wanted.get(i).fits(possible, place);
      }
    }
  }

  int length() {
    return accepts.length;
  }

  boolean fits(ChordLine chords, int at) {
    int turns = round ? accepts.length : 1;
    for (int turn = 0; turn < turns; turn++) {
      if (fits(chords, at, turn)) {
        return !round || goesRound(chords, at);
      }
    }
    return false;
  }

  private boolean fits(ChordLine chords, int at, int turn) {
    int wanted = turn;
    for (int i = 0; i < accepts.length; i++) {
      if (!accepts[wanted][chords.code(at + i)]) {
        return false;
      }
      wanted = wanted + 1 == accepts.length ? 0 : wanted + 1;
    }
    return true;
  }

  /**
   * Whether the chord after the last is the first again, as in a loop; the song's end counts as
   * well.
   */
  private boolean goesRound(ChordLine chords, int at) {
    int next = at + accepts.length;
    return (next < chords.size() && chords.same(next, at))
        || (at > 0 && chords.same(at - 1, next - 1));
  }
}
