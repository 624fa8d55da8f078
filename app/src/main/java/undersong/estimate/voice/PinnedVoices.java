package undersong.estimate.voice;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SortedMap;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.time.Span;

/** The listener's word on voices: pinned while decoding, then laid over where it was said. */
final class PinnedVoices {
  private static final double SHORTEST_SECONDS = 0.05;

  /** Log odds by which a pin outweighs what was heard; finite, so that the newest can win. */
  private static final double PIN = 12;

  private static final String DECODED = PartName.voice(2);

  private final List<Correction> placed = new ArrayList<>();
  private final List<Correction> unplaced = new ArrayList<>();

  PinnedVoices(Corrections corrections, double durationSeconds) {
    for (CorrectionEntry entry : corrections.of(Facet.VOICES).entries()) {
      Correction said = entry.correction();
      (spanOf(said).startSeconds() < durationSeconds ? placed : unplaced).add(said);
    }
  }

  private static Span spanOf(Correction said) {
    return said instanceof Correction.VoiceNoteOver note
        ? note.span()
        : ((Correction.NoVoiceOver) said).span();
  }

  private static String voiceOf(Correction said) {
    return said instanceof Correction.VoiceNoteOver note
        ? note.voice()
        : ((Correction.NoVoiceOver) said).voice();
  }

  List<Correction> unplaced() {
    return unplaced;
  }

  /** The candidates beside a note of the lead, as what was said makes them more or less likely. */
  List<Candidate> weighed(List<Candidate> candidates) {
    List<Candidate> weighed = new ArrayList<>();
    for (Candidate candidate : candidates) {
      double pin = 0;
      for (Correction said : placed) {
        if (voiceOf(said).equals(DECODED)
            && spanOf(said).contains(candidate.span().startSeconds())) {
          boolean same =
              said instanceof Correction.VoiceNoteOver note
                  && Math.round(note.midiPitch()) == candidate.midiPitch();
          pin = same ? PIN : -PIN;
        }
      }
      weighed.add(candidate.plus(pin));
    }
    return weighed;
  }

  /**
   * @param heard notes by name of voice; read and written
   */
  void layOver(SortedMap<String, List<NoteEvent>> heard) {
    for (Correction said : placed) {
      List<NoteEvent> next = new ArrayList<>();
      Span span = spanOf(said);
      for (NoteEvent note : heard.getOrDefault(voiceOf(said), List.of())) {
        if (!note.span().overlaps(span)) {
          next.add(note);
        } else {
          addPiece(note, note.span().startSeconds(), span.startSeconds(), next);
          addPiece(note, span.endSeconds(), note.span().endSeconds(), next);
        }
      }
      if (said instanceof Correction.VoiceNoteOver over) {
        next.add(new NoteEvent(span, over.midiPitch(), 1));
      }
      next.sort(Comparator.comparingDouble(note -> note.span().startSeconds()));
      heard.put(voiceOf(said), next);
    }
  }

  private static void addPiece(NoteEvent note, double start, double end, List<NoteEvent> out) {
    if (end - start >= SHORTEST_SECONDS) {
      out.add(new NoteEvent(new Span(start, end), note.midiPitch(), note.probability()));
    }
  }
}
