package undersong.estimate.bass;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.NoteEvent;
import undersong.time.FrameClock;
import undersong.time.Span;

/** The listener's word on bass notes: pinned while decoding, then laid over where it was said. */
final class PinnedBass {
  private static final double SHORTEST_SECONDS = 0.05;

  private final List<Correction> placed = new ArrayList<>();
  private final List<Correction> unplaced = new ArrayList<>();
  private final double durationSeconds;

  PinnedBass(Corrections corrections, double durationSeconds) {
    this.durationSeconds = durationSeconds;
    for (CorrectionEntry entry : corrections.entries()) {
      Correction said = entry.correction();
      if (said instanceof Correction.BassNoteOver || said instanceof Correction.NoBassOver) {
        (spanOf(said).startSeconds() < durationSeconds ? placed : unplaced).add(said);
      }
    }
  }

  private static Span spanOf(Correction said) {
    return said instanceof Correction.BassNoteOver note
        ? note.span()
        : ((Correction.NoBassOver) said).span();
  }

  List<Correction> unplaced() {
    return unplaced;
  }

  /** The pinned state of each frame; a pitch beyond the decoder's range pins nothing. */
  int[] states(FrameClock clock, int frames) {
    int[] pins = new int[frames];
    Arrays.fill(pins, BassDecoder.FREE);
    for (Correction said : placed) {
      int state = BassEvidence.NO_BASS;
      if (said instanceof Correction.BassNoteOver note) {
        state = (int) Math.round(note.midiPitch()) - BassEvidence.LOWEST_PITCH;
      }
      if (state >= 0 && state <= BassEvidence.NO_BASS) {
        int from = Math.min(frames, clock.frameAt(spanOf(said).startSeconds()));
        int to = Math.min(frames, clock.frameAt(spanOf(said).endSeconds()));
        Arrays.fill(pins, from, Math.max(from, to), state);
      }
    }
    return pins;
  }

  List<NoteEvent> laidOver(List<NoteEvent> heard) {
    List<NoteEvent> notes = new ArrayList<>(heard);
    for (Correction said : placed) {
      Span span =
          new Span(
              spanOf(said).startSeconds(), Math.min(durationSeconds, spanOf(said).endSeconds()));
      List<NoteEvent> next = new ArrayList<>();
      for (NoteEvent note : notes) {
        if (!note.span().overlaps(span)) {
          next.add(note);
          continue;
        }
        addPiece(note, note.span().startSeconds(), span.startSeconds(), next);
        addPiece(note, span.endSeconds(), note.span().endSeconds(), next);
      }
      if (said instanceof Correction.BassNoteOver over) {
        next.add(new NoteEvent(span, over.midiPitch(), 1));
      }
      next.sort(Comparator.comparingDouble(note -> note.span().startSeconds()));
      notes = next;
    }
    return notes;
  }

  private static void addPiece(NoteEvent note, double start, double end, List<NoteEvent> out) {
    if (end - start >= SHORTEST_SECONDS) {
      out.add(new NoteEvent(new Span(start, end), note.midiPitch(), note.probability()));
    }
  }
}
