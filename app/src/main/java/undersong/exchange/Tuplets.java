package undersong.exchange;

import undersong.notation.WrittenBar;
import undersong.notation.WrittenNote;

/** Which signs begin and end a bracket of three in the time of two: one bracket a beat. */
final class Tuplets {
  /** Where a sign stands in its bracket. */
  enum Edge {
    NONE,
    FIRST,
    INSIDE,
    LAST
  }

  private Tuplets() {}

  static Edge at(WrittenBar bar, int index) {
    WrittenNote note = bar.notes().get(index);
    if (!note.triplet()) {
      return Edge.NONE;
    }
    int beat = WrittenBar.beatTicks(bar.signature());
    boolean first = note.startTicks() % beat == 0;
    boolean last = (note.startTicks() + note.ticks()) % beat == 0;
    return first ? Edge.FIRST : last ? Edge.LAST : Edge.INSIDE;
  }
}
