package undersong.search;

import java.util.BitSet;

/**
 * Short runs of a song, three chords or four notes, seen from the key or from note to note. Songs
 * that share none with an example are not worth an alignment; the more they share, the sooner.
 *
 * <p><b>Cost:</b> the length of a song, once; about half a kilobyte is kept of it.
 */
public final class Seeds {
  private static final int SLOTS = 1 << 13;
  private static final int TUNE = 0x5bd1e995;

  /** Each once, rising. */
  private final char[] slots;

  private Seeds(char[] slots) {
    this.slots = slots;
  }

  public static Seeds of(SongLines song) {
    BitSet all = new BitSet(SLOTS);
    for (int slot : slots(song)) {
      all.set(slot);
    }
    char[] slots = new char[all.cardinality()];
    int filled = 0;
    for (int slot = all.nextSetBit(0); slot >= 0; slot = all.nextSetBit(slot + 1)) {
      slots[filled++] = (char) slot;
    }
    return new Seeds(slots);
  }

  /** The runs as a set, to be looked for in many songs. */
  public Example asExample() {
    BitSet wanted = new BitSet(SLOTS);
    for (char slot : slots) {
      wanted.set(slot);
    }
    return new Example(wanted);
  }

  /** What is looked for. */
  public static final class Example {
    private final BitSet wanted;

    private Example(BitSet wanted) {
      this.wanted = wanted;
    }

    /** How many runs of the example a song has; now and then one too many. */
    public int sharedWith(Seeds song) {
      int shared = 0;
      for (char slot : song.slots) {
        shared += wanted.get(slot) ? 1 : 0;
      }
      return shared;
    }
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
