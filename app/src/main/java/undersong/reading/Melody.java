package undersong.reading;

import java.util.List;

/** Notes of the leading tune in order, not overlapping; empty where nobody leads. */
public record Melody(List<NoteEvent> notes) implements FacetValue {
  public Melody {
    notes = List.copyOf(notes);
  }

  @Override
  public Object essence() {
    return notes.stream().map(NoteEvent::essence).toList();
  }
}
