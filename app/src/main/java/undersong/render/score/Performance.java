package undersong.render.score;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A score turned into notes with times: what the renderer plays and what the truth is read from.
 */
public final class Performance {
  private final Score score;
  private final List<ChordEvent> chords;
  private final List<PlayedNote> notes;

  private Performance(Score score, List<ChordEvent> chords, List<PlayedNote> notes) {
    this.score = score;
    this.chords = chords;
    this.notes = notes;
  }

  public static Performance of(Score score) {
    List<ChordEvent> chords = chords(score);
    List<PlayedNote> notes = new ArrayList<>();
    for (Part part : score.parts()) {
      notes.addAll(new PartPlayer(score, chords, part).notes());
    }
    notes.sort(Comparator.comparingDouble(PlayedNote::startBeat));
    return new Performance(score, List.copyOf(chords), List.copyOf(notes));
  }

  public Score score() {
    return score;
  }

  /** In order of time; parts in the order of the score where they begin together. */
  public List<PlayedNote> notes() {
    return notes;
  }

  public List<PlayedNote> notes(PartRole role) {
    return notes.stream().filter(note -> note.part().role() == role).toList();
  }

  /** Notes of one part in one section. */
  public List<PlayedNote> notes(Part part, int sectionIndex) {
    return notes.stream()
        .filter(note -> note.part().equals(part) && note.sectionIndex() == sectionIndex)
        .toList();
  }

  /** The mix of a part in a section; empty where it rests. */
  public Optional<Mix> mix(Part part, int sectionIndex) {
    return Optional.ofNullable(score.sections().get(sectionIndex).lines().get(part.name()))
        .map(Line::mix);
  }

  public int sections() {
    return score.sections().size();
  }

  public double sectionStartSeconds(int sectionIndex) {
    return score.secondsAt(firstBeat(score, sectionIndex));
  }

  public double sectionEndSeconds(int sectionIndex) {
    return score.secondsAt(firstBeat(score, sectionIndex + 1));
  }

  List<ChordEvent> chords() {
    return chords;
  }

  /** First beat of a section; of the end where the index is the number of sections. */
  static double firstBeat(Score score, int sectionIndex) {
    return score.sections().stream().limit(sectionIndex).mapToInt(ScoreSection::beats).sum();
  }

  private static List<ChordEvent> chords(Score score) {
    List<ChordEvent> open = new ArrayList<>();
    for (int s = 0; s < score.sections().size(); s++) {
      ScoreSection section = score.sections().get(s);
      double first = firstBeat(score, s);
      for (Placed<undersong.theory.ChordSymbol> chord : section.chords()) {
        double arrival = Math.max(0, first + chord.startBeat() - section.earlyBeats());
        open.add(
            new ChordEvent(
                s, arrival, arrival, section.earlyBeats(), chord.value(), section.key()));
      }
    }
    List<ChordEvent> closed = new ArrayList<>();
    double end = firstBeat(score, score.sections().size());
    for (int i = 0; i < open.size(); i++) {
      ChordEvent event = open.get(i);
      double next = i + 1 < open.size() ? open.get(i + 1).arrivalBeat() : end;
      boolean goesOn = !closed.isEmpty() && last(closed).symbol().equals(event.symbol());
      if (goesOn && last(closed).key().equals(event.key())) {
        ChordEvent before = closed.remove(closed.size() - 1);
        closed.add(extended(before, next));
      } else {
        closed.add(extended(event, next));
      }
    }
    return closed;
  }

  private static ChordEvent last(List<ChordEvent> events) {
    return events.get(events.size() - 1);
  }

  private static ChordEvent extended(ChordEvent event, double endBeat) {
    return new ChordEvent(
        event.sectionIndex(),
        event.arrivalBeat(),
        endBeat,
        event.earlyBeats(),
        event.symbol(),
        event.key());
  }
}
