package undersong.reading;

import java.util.List;

/**
 * The leading tune.
 *
 * @param notes in order, not overlapping; empty where nobody leads
 * @param curve its pitch as it was heard, glides and vibrato kept; corrections of notes do not
 *     touch it
 */
public record Melody(List<NoteEvent> notes, List<PitchStretch> curve) implements FacetValue {
  public static final Melody NONE = new Melody(List.of(), List.of());

  public Melody {
    notes = List.copyOf(notes);
    curve = List.copyOf(curve);
  }

  /** A tune known by its notes only. */
  public Melody(List<NoteEvent> notes) {
    this(notes, List.of());
  }

  @Override
  public Object essence() {
    return List.of(notes.stream().map(NoteEvent::essence).toList(), curve);
  }
}
