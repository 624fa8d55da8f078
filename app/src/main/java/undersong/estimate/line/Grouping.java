package undersong.estimate.line;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import undersong.time.BeatGrid;

/**
 * Groups the accompaniment's notes into lines: those that move by themselves are woven apart from
 * the chords, the longest lines are kept, and what is left over joins the nearest of them.
 */
final class Grouping {
  private static final double FURTHEST_JOIN_SEMITONES = 12;

  private Grouping() {}

  /**
   * Notes that belong together, by start.
   *
   * @param moves whether they are a line of their own, and no voice of chords
   */
  record Group(boolean moves, List<HeardNote> notes) {}

  /**
   * @param notes by start
   * @return lines first, then voices of chords; of each those with most notes first
   */
  static List<Group> of(List<HeardNote> notes, BeatGrid grid, LineSettings settings) {
    MovingNotes moving = new MovingNotes(notes, grid, settings);
    List<HeardNote> lines = new ArrayList<>();
    List<HeardNote> chords = new ArrayList<>();
    for (int i = 0; i < notes.size(); i++) {
      (moving.probability(i) >= settings.leastMoving() ? lines : chords).add(notes.get(i));
    }
    List<Group> groups = new ArrayList<>();
    woven(lines, settings.mostLines(), settings).forEach(line -> groups.add(new Group(true, line)));
    woven(chords, settings.mostLines() - groups.size(), settings)
        .forEach(voice -> groups.add(new Group(false, voice)));
    return groups;
  }

  private static List<List<HeardNote>> woven(
      List<HeardNote> notes, int most, LineSettings settings) {
    List<List<HeardNote>> woven = new ArrayList<>(LineWeaver.weave(notes, settings));
    woven.sort(Comparator.comparingInt((List<HeardNote> line) -> line.size()).reversed());
    List<List<HeardNote>> kept = new ArrayList<>();
    List<HeardNote> rest = new ArrayList<>();
    for (List<HeardNote> line : woven) {
      if (kept.size() < most && line.size() >= settings.fewestNotes()) {
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
