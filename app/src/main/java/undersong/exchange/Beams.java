package undersong.exchange;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import undersong.notation.WrittenBar;
import undersong.notation.WrittenNote;

/** Which short notes of a bar hang together: those of one tapped beat. Common practice. */
final class Beams {
  private Beams() {}

  /** Values of beam-value in MusicXML 4.0 by level, one list a sign of the bar; empty for none. */
  static List<List<String>> of(WrittenBar bar) {
    List<WrittenNote> notes = bar.notes();
    int beat = WrittenBar.beatTicks(bar.signature());
    List<List<String>> beams = new ArrayList<>(Collections.nCopies(notes.size(), List.of()));
    int first = 0;
    while (first < notes.size()) {
      int next = first;
      while (next < notes.size()
          && flags(notes.get(next)) > 0
          && notes.get(next).startTicks() / beat == notes.get(first).startTicks() / beat) {
        next++;
      }
      for (int i = first; next - first > 1 && i < next; i++) {
        beams.set(i, levels(notes.subList(first, next), i - first));
      }
      first = Math.max(next, first + 1);
    }
    return beams;
  }

  private static List<String> levels(List<WrittenNote> group, int place) {
    List<String> levels = new ArrayList<>();
    for (int level = 1; level <= flags(group.get(place)); level++) {
      boolean before = place > 0 && flags(group.get(place - 1)) >= level;
      boolean after = place + 1 < group.size() && flags(group.get(place + 1)) >= level;
      levels.add(
          before && after
              ? "continue"
              : before ? "end" : after ? "begin" : place == 0 ? "forward hook" : "backward hook");
    }
    return levels;
  }

  private static int flags(WrittenNote note) {
    if (note.isRest()) {
      return 0;
    }
    return switch (note.value().type()) {
      case "eighth" -> 1;
      case "16th" -> 2;
      case "32nd" -> 3;
      case "64th" -> 4;
      default -> 0;
    };
  }
}
