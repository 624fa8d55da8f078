package undersong.reading;

import java.util.List;
import java.util.Optional;
import undersong.time.Span;

/**
 * One sung line besides the lead.
 *
 * @param name {@code voice-2}, {@code voice-3} ...: the lead is the first
 * @param notes in order, not overlapping
 * @param curve its pitch as it was heard; empty where only notes are known
 * @param phrases its notes from breath to breath, in order
 */
public record Voice(String name, List<Sung> notes, List<PitchStretch> curve, List<Phrase> phrases) {
  public Voice {
    PartName.checkVoice(name);
    notes = List.copyOf(notes);
    curve = List.copyOf(curve);
    phrases = List.copyOf(phrases);
  }

  /**
   * One note.
   *
   * @param semitonesAboveLead negative where it lies below; empty where the lead is silent
   */
  public record Sung(NoteEvent event, Optional<Integer> semitonesAboveLead) {
    Object essence() {
      return List.of(event.essence(), semitonesAboveLead);
    }
  }

  /**
   * What it sings in one breath.
   *
   * @param semitonesAboveLead the interval it keeps most; empty where the lead is silent
   * @param probability that a voice sings here and does this
   */
  public record Phrase(
      Span span, VoiceKind kind, Optional<Integer> semitonesAboveLead, double probability) {
    public Phrase {
      Probability.check(probability);
    }

    Object essence() {
      return List.of(span, kind, semitonesAboveLead);
    }
  }

  /**
   * A voice as it stands beside the lead: intervals, phrases and what each does follow from the
   * notes of both. A phrase most of whose notes sound without the lead is an ad-lib.
   *
   * @param events in order, not overlapping, at least one
   */
  public static Voice beside(
      Melody lead, String name, List<NoteEvent> events, List<PitchStretch> curve) {
    List<Sung> sung = new BesideLead(lead).sung(events);
    return new Voice(name, sung, curve, BesideLead.phrases(sung));
  }

  public List<NoteEvent> events() {
    return notes.stream().map(Sung::event).toList();
  }

  Object essence() {
    return List.of(
        name,
        notes.stream().map(Sung::essence).toList(),
        curve,
        phrases.stream().map(Phrase::essence).toList());
  }
}
