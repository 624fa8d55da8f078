package undersong.search;

import java.util.BitSet;
import java.util.List;
import undersong.search.SongLines.ChordAt;
import undersong.search.SongLines.NoteAt;

/**
 * Short runs of an example, three chords or four notes, seen from the key or from note to note.
 * Songs that share none are not worth an alignment; the more they share, the sooner.
 *
 * <p><b>Cost:</b> the length of a song, once.
 */
public final class Seeds {
  private static final int SLOTS = 1 << 13;
  private static final int TUNE = 0x5bd1e995;

  private final BitSet wanted;

  private Seeds(BitSet wanted) {
    this.wanted = wanted;
  }

  public static Seeds of(SongLines example) {
    return new Seeds(slots(example));
  }

  /** How many runs of the example the song has; now and then one too many. */
  public int sharedWith(SongLines song) {
    BitSet shared = slots(song);
    shared.and(wanted);
    return shared.cardinality();
  }

  private static BitSet slots(SongLines song) {
    BitSet slots = new BitSet(SLOTS);
    List<ChordAt> chords = song.chords();
    for (int i = 0; i + 2 < chords.size(); i++) {
      int run = 0;
      for (int k = i; k < i + 3; k++) {
        run =
            run * 31
                + chords.get(k).degree() * 2
                + (chords.get(k).quality().hasMinorThird() ? 1 : 0);
      }
      slots.set(slot(run));
    }
    List<NoteAt> tune = song.tune();
    for (int i = 0; i + 3 < tune.size(); i++) {
      int run = TUNE;
      for (int k = i; k < i + 3; k++) {
        run = run * 61 + tune.get(k + 1).midi() - tune.get(k).midi();
      }
      slots.set(slot(run));
    }
    return slots;
  }

  private static int slot(int run) {
    int mixed = run * 0x9E3779B1;
    return (mixed ^ (mixed >>> 15)) & (SLOTS - 1);
  }
}
