package undersong.search;

import java.util.BitSet;

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
    BitSet slots = new BitSet(SLOTS);
    for (int slot : slots(example)) {
      slots.set(slot);
    }
    return new Seeds(slots);
  }

  /** How many runs of the example the song has; now and then one too many. */
  public int sharedWith(SongLines song) {
    BitSet shared = null;
    for (int slot : slots(song)) {
      if (wanted.get(slot)) {
        shared = shared == null ? new BitSet(SLOTS) : shared;
        shared.set(slot);
      }
    }
    return shared == null ? 0 : shared.cardinality();
  }

  private static int[] slots(SongLines song) {
    ChordLine chords = song.chordLine();
    NoteLine tune = song.tuneLine();
    int[] slots = new int[Math.max(0, chords.size() - 2) + Math.max(0, tune.size() - 3)];
    int filled = 0;
    for (int i = 0; i + 2 < chords.size(); i++) {
      int run = 0;
      for (int k = i; k < i + 3; k++) {
        run = run * 31 + chords.degree(k) * 2 + (chords.quality(k).hasMinorThird() ? 1 : 0);
      }
      slots[filled++] = slot(run);
    }
    for (int i = 0; i + 3 < tune.size(); i++) {
      int run = TUNE;
      for (int k = i; k < i + 3; k++) {
        run = run * 61 + tune.step(k + 1);
      }
      slots[filled++] = slot(run);
    }
    return slots;
  }

  private static int slot(int run) {
    int mixed = run * 0x9E3779B1;
    return (mixed ^ (mixed >>> 15)) & (SLOTS - 1);
  }
}
