package undersong.bench.data;

import java.util.List;
import undersong.bench.metrics.ChordCode;

/** Names a chord block by the notes it is made of, trying the lowest note as root first. */
final class ChordNames {
  /** Semitones above the root, most usual chords first. */
  private static final List<Integer> USUAL =
      List.of(
          bits(0, 4, 7),
          bits(0, 3, 7),
          bits(0, 4, 7, 10),
          bits(0, 3, 7, 10),
          bits(0, 4, 7, 11),
          bits(0, 5, 7),
          bits(0, 2, 7),
          bits(0, 3, 6),
          bits(0, 4, 8),
          bits(0, 3, 6, 10),
          bits(0, 3, 6, 9),
          bits(0, 3, 7, 11),
          bits(0, 5, 7, 10),
          bits(0, 4, 7, 9),
          bits(0, 3, 7, 9),
          bits(0, 7),
          bits(0));

  private ChordNames() {}

  private static int bits(int... semitones) {
    int bits = 0;
    for (int s : semitones) {
      bits |= 1 << s;
    }
    return bits;
  }

  /** Unknown where no usual chord is made of exactly these notes. */
  static ChordCode of(List<MidiSong.Note> block) {
    int pitchClasses = 0;
    int lowest = 127;
    for (MidiSong.Note note : block) {
      pitchClasses |= 1 << note.pitch() % 12;
      lowest = Math.min(lowest, note.pitch());
    }
    for (int up = 0; up < 12; up++) {
      int root = (lowest + up) % 12;
      int rotated = (pitchClasses >>> root | pitchClasses << (12 - root)) & 0xfff;
      if (USUAL.contains(rotated)) {
        return ChordCode.of(root, rotated, Math.floorMod(lowest - root, 12));
      }
    }
    return ChordCode.UNKNOWN;
  }
}
