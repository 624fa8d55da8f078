package undersong.reading;

import java.util.List;

/**
 * The leading tune.
 *
 * @param notes in order, not overlapping; empty where nobody leads
 * @param curve its pitch as it was heard, glides and vibrato kept; corrections of notes do not
 *     touch it
 * @param unsure the pitch that the tune would have where it is taken to rest: what is cut into
 *     notes once a listener says that it sounds; in order, between the stretches of the curve.
 *     Nothing shows, plays or searches it
 */
public record Melody(List<NoteEvent> notes, List<PitchStretch> curve, List<PitchStretch> unsure)
    implements FacetValue {
  public static final Melody NONE = new Melody(List.of());

  public Melody {
    notes = List.copyOf(notes);
    curve = List.copyOf(curve);
    unsure = List.copyOf(unsure);
  }

  /** A tune known by its notes only. */
  public Melody(List<NoteEvent> notes) {
    this(notes, List.of(), List.of());
  }

  /** The same curve with other notes. */
  public Melody withNotes(List<NoteEvent> others) {
    return new Melody(others, curve, unsure);
  }

  @Override
  public Object essence() {
    return List.of(notes.stream().map(NoteEvent::essence).toList(), curve, unsure);
  }
}
