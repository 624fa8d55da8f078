package undersong.reading;

import java.util.List;
import java.util.Optional;

/** Bass notes in order, not overlapping; empty where nothing low sounds. */
public record Bass(List<NoteEvent> notes) implements FacetValue {
  public Bass {
    notes = List.copyOf(notes);
  }

  /** The bass note that sounds at a time, if one does. */
  public Optional<NoteEvent> noteAt(double seconds) {
    return notes.stream().filter(note -> note.span().contains(seconds)).findFirst();
  }

  @Override
  public Object essence() {
    return notes.stream().map(NoteEvent::essence).toList();
  }
}
