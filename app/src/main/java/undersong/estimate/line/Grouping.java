package undersong.estimate.line;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Groups the accompaniment's notes into lines: notes that begin alone or in pairs are woven apart
 * from chords, the longest lines are kept, and what is left over joins the nearest of them.
 */
final class Grouping {
  private static final double FURTHEST_JOIN_SEMITONES = 12;

  private Grouping() {}

  /**
   * @param notes by start
   * @return lines with most notes first, the notes of each by start
   */
  static List<List<HeardNote>> of(List<HeardNote> notes, LineSettings settings) {
    List<HeardNote> moving = new ArrayList<>();
    List<HeardNote> chords = new ArrayList<>();
    int begin = 0;
    for (int i = 1; i <= notes.size(); i++) {
      if (i == notes.size()
          || notes.get(i).start() - notes.get(begin).start() > settings.togetherSeconds()) {
        (i - begin >= settings.blockNotes() ? chords : moving).addAll(notes.subList(begin, i));
        begin = i;
      }
    }
    List<List<HeardNote>> woven = new ArrayList<>(LineWeaver.weave(moving, settings));
    woven.addAll(LineWeaver.weave(chords, settings));
    woven.sort(Comparator.comparingInt((List<HeardNote> line) -> line.size()).reversed());
    List<List<HeardNote>> kept = new ArrayList<>();
    List<HeardNote> rest = new ArrayList<>();
    for (List<HeardNote> line : woven) {
      if (kept.size() < settings.mostLines() && line.size() >= settings.fewestNotes()) {
        kept.add(new ArrayList<>(line));
      } else {
        rest.addAll(line);
      }
    }
    rest.forEach(note -> join(note, kept, settings));
    kept.forEach(line -> line.sort(Comparator.comparingDouble(HeardNote::start)));
    return kept;
  }

  /** To the line nearest in pitch that does not begin another note just then; else it is let go. */
  private static void join(HeardNote note, List<List<HeardNote>> lines, LineSettings settings) {
    List<HeardNote> nearest = null;
    double least = FURTHEST_JOIN_SEMITONES;
    for (List<HeardNote> line : lines) {
      double away = Double.POSITIVE_INFINITY;
      for (HeardNote other : line) {
        if (Math.abs(other.start() - note.start()) <= settings.togetherSeconds()) {
          away = Double.POSITIVE_INFINITY;
          break;
        }
        if (Math.abs(other.start() - note.start()) <= 4) {
          away = Math.min(away, Math.abs(other.pitch() - note.pitch()));
        }
      }
      if (away < least) {
        least = away;
        nearest = line;
      }
    }
    if (nearest != null) {
      nearest.add(note);
    }
  }
}
