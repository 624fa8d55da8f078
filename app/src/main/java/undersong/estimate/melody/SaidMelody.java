package undersong.estimate.melody;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.NoteEvent;
import undersong.time.Span;

/**
 * The listener's word on the tune: where it sounds, before it is cut into notes; notes and rests,
 * laid over them.
 */
final class SaidMelody {
  private static final double SHORTEST_SECONDS = 0.03;

  private final List<Span> sounding = new ArrayList<>();
  private final List<Correction> overNotes = new ArrayList<>();
  private final List<Correction> unplaced = new ArrayList<>();

  /**
   * @param entries oldest first
   */
  SaidMelody(List<CorrectionEntry> entries, double durationSeconds) {
    for (CorrectionEntry entry : entries) {
      Correction said = entry.correction();
      if (spanOf(said).startSeconds() >= durationSeconds) {
        unplaced.add(said);
      } else if (said instanceof Correction.MelodyOver sounds) {
        sounding.add(sounds.span());
        endRests(sounds.span());
      } else {
        overNotes.add(said);
      }
    }
  }

  private static Span spanOf(Correction said) {
    if (said instanceof Correction.MelodyNoteOver note) {
      return note.span();
    }
    return said instanceof Correction.MelodyOver sounds
        ? sounds.span()
        : ((Correction.NoMelodyOver) said).span();
  }

  /** Where the tune sounds, rests that were said earlier no longer stand. */
  private void endRests(Span sounds) {
    List<Correction> stand = new ArrayList<>();
    for (Correction said : overNotes) {
      if (said instanceof Correction.NoMelodyOver rest) {
        without(rest.span(), sounds).forEach(span -> stand.add(new Correction.NoMelodyOver(span)));
      } else {
        stand.add(said);
      }
    }
    overNotes.clear();
    overNotes.addAll(stand);
  }

  List<Span> sounding() {
    return sounding;
  }

  List<Correction> unplaced() {
    return unplaced;
  }

  List<NoteEvent> laidOver(List<NoteEvent> heard) {
    List<NoteEvent> notes = heard;
    for (Correction said : overNotes) {
      List<NoteEvent> next = new ArrayList<>();
      for (NoteEvent note : notes) {
        for (Span span : without(note.span(), spanOf(said))) {
          next.add(new NoteEvent(span, note.midiPitch(), note.probability()));
        }
      }
      if (said instanceof Correction.MelodyNoteOver over) {
        next.add(new NoteEvent(over.span(), over.midiPitch(), 1));
      }
      next.sort(Comparator.comparingDouble(note -> note.span().startSeconds()));
      notes = next;
    }
    return notes;
  }

  /** The span with another cut out of it; no piece too short to be heard stays. */
  private static List<Span> without(Span span, Span hole) {
    if (!span.overlaps(hole)) {
      return List.of(span);
    }
    List<Span> pieces = new ArrayList<>();
    if (hole.startSeconds() - span.startSeconds() > SHORTEST_SECONDS) {
      pieces.add(new Span(span.startSeconds(), hole.startSeconds()));
    }
    if (span.endSeconds() - hole.endSeconds() > SHORTEST_SECONDS) {
      pieces.add(new Span(hole.endSeconds(), span.endSeconds()));
    }
    return pieces;
  }
}
