package undersong.reading;

import java.util.List;
import java.util.Optional;

/**
 * One line of the accompaniment.
 *
 * @param name {@code line-1}, {@code line-2} ...
 * @param notes in the order of their onsets; may overlap where notes ring on
 * @param kind empty where it is none of the known kinds
 * @param placement -1 = left, 0 = middle, 1 = right; empty where it is not known
 * @param probability that these notes belong together
 */
public record Line(
    String name,
    List<NoteEvent> notes,
    Optional<LineKind> kind,
    Optional<Double> placement,
    double probability) {
  public Line {
    PartName.checkLine(name);
    notes = List.copyOf(notes);
    if (notes.isEmpty()) {
      throw new IllegalArgumentException("A line (%s) without notes is none.".formatted(name));
    }
    placement.ifPresent(
        place -> {
          if (!(place >= -1 && place <= 1)) {
            throw new IllegalArgumentException(
                "Placement %s must lie within -1 (left) to 1 (right).".formatted(place));
          }
        });
    Probability.check(probability);
  }

  public double lowestMidi() {
    return notes.stream().mapToDouble(NoteEvent::midiPitch).min().orElseThrow();
  }

  public double highestMidi() {
    return notes.stream().mapToDouble(NoteEvent::midiPitch).max().orElseThrow();
  }

  Object essence() {
    return List.of(name, notes.stream().map(NoteEvent::essence).toList(), kind, placement);
  }
}
