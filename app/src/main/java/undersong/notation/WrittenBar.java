package undersong.notation;

import java.util.List;
import undersong.reading.TimeSignature;
import undersong.theory.Key;
import undersong.time.Span;

/**
 * One bar of one part, filled from end to end with notes and rests.
 *
 * @param number as counted from 1; 0 for what comes before the first whole bar
 * @param ticks it lasts; a pick-up lasts less than its signature says
 * @param key in force at its beginning
 * @param span where it sounds in the recording
 * @param chords that arrive in it, and the one held at its beginning
 */
public record WrittenBar(
    int number,
    TimeSignature signature,
    int ticks,
    Key key,
    Span span,
    List<WrittenNote> notes,
    List<WrittenChord> chords) {
  public WrittenBar {
    notes = List.copyOf(notes);
    chords = List.copyOf(chords);
    int at = 0;
    for (WrittenNote note : notes) {
      if (note.startTicks() != at) {
        throw new IllegalArgumentException(
            "Bar %d: a sign begins at tick %d where the one before ended at %d."
                .formatted(number, note.startTicks(), at));
      }
      at += note.ticks();
    }
    if (at != ticks) {
      throw new IllegalArgumentException(
          "Bar %d lasts %d ticks and is filled with %d.".formatted(number, ticks, at));
    }
  }

  /** Ticks of one tapped beat. */
  public static int beatTicks(TimeSignature signature) {
    return signature.compound() ? NoteValue.TICKS_PER_QUARTER * 3 / 2 : NoteValue.TICKS_PER_QUARTER;
  }
}
