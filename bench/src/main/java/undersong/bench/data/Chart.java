package undersong.bench.data;

import java.util.ArrayList;
import java.util.List;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.KeyLabel;

/**
 * A song as written on paper: bars of chords, with keys, sections and, where it is known, the tune.
 * Positions are in tapped beats from the first bar line; in 6/8 and 12/8 the beat is the dotted
 * quarter.
 *
 * @param id data set and number, never a title
 * @param tune sung notes; empty where only chords are known
 * @param second second voice
 */
public record Chart(String id, List<Bar> bars, List<Note> tune, List<Note> second) {
  public Chart {
    bars = List.copyOf(bars);
    tune = List.copyOf(tune);
    second = List.copyOf(second);
  }

  /**
   * One bar.
   *
   * @param beats tapped beats
   * @param compound whether each divides in three
   * @param changes chords in order, the first at beat 0 of the bar
   */
  public record Bar(
      int beats,
      boolean compound,
      KeyLabel key,
      List<Change> changes,
      String letter,
      String sectionName,
      boolean opensSection) {
    public Bar {
      changes = List.copyOf(changes);
      if (beats < 1 || changes.isEmpty()) {
        throw new IllegalArgumentException(
            "A bar of %d beats and %d chords needs at least one of each."
                .formatted(beats, changes.size()));
      }
    }
  }

  /** A chord from a beat of its bar on. */
  public record Change(double beat, ChordCode chord) {}

  /** A note in beats from the first bar line. */
  public record Note(double startBeat, double endBeat, int midiPitch) {}

  /** Beat at which each bar begins, and one more for the end. */
  public int[] barStarts() {
    int[] starts = new int[bars.size() + 1];
    for (int i = 0; i < bars.size(); i++) {
      starts[i + 1] = starts[i] + bars.get(i).beats();
    }
    return starts;
  }

  /** The bars from one to before another, the tune moved with them. */
  public Chart excerpt(int fromBar, int toBar) {
    int[] starts = barStarts();
    return new Chart(
        id,
        bars.subList(fromBar, toBar),
        move(tune, starts[fromBar], starts[toBar]),
        move(second, starts[fromBar], starts[toBar]));
  }

  private static List<Note> move(List<Note> notes, double from, double to) {
    List<Note> moved = new ArrayList<>();
    for (Note note : notes) {
      if (note.startBeat() >= from && note.startBeat() < to - 0.05) {
        moved.add(
            new Note(
                note.startBeat() - from, Math.min(note.endBeat(), to) - from, note.midiPitch()));
      }
    }
    return moved;
  }

  /** Changes of a bar whose tokens share it evenly; equal neighbors joined. */
  static List<Change> spread(int beats, List<ChordCode> tokens) {
    List<Change> changes = new ArrayList<>();
    for (int i = 0; i < tokens.size(); i++) {
      if (changes.isEmpty() || !changes.get(changes.size() - 1).chord().equals(tokens.get(i))) {
        changes.add(new Change((double) beats * i / tokens.size(), tokens.get(i)));
      }
    }
    return changes;
  }
}
