package undersong.technique.harmony;

import java.util.List;
import java.util.Optional;
import undersong.reading.Bar;
import undersong.reading.NoteEvent;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.time.Span;

/**
 * Where phrases end: with the section, and every four bars within sections that divide so. Common
 * practice, no source.
 */
final class Phrases {
  private static final int USUAL_BARS = 4;

  private final Pulse pulse;
  private final List<SongSection> sections;

  Phrases(Pulse pulse, List<SongSection> sections) {
    this.pulse = pulse;
    this.sections = sections;
  }

  /**
   * The bar a phrase ends with.
   *
   * @param barInSection from 1
   */
  record End(SongSection section, int barInSection, Span bar) {}

  /** The phrase end in whose last bar most of a chord lies. */
  Optional<End> endAt(Span chord) {
    Optional<SongSection> section = SongSection.at(sections, chord);
    Bar most = null;
    for (Bar bar : pulse.meter().bars()) {
      double seconds = bar.span().overlapSeconds(chord);
      if (seconds > 0 && (most == null || seconds > most.span().overlapSeconds(chord) + 1e-6)) {
        most = bar;
      }
    }
    if (section.isEmpty() || most == null) {
      return Optional.empty();
    }
    int place = most.number() - section.get().section().firstBar() + 1;
    boolean last = most.number() == section.get().section().lastBar();
    boolean divides = section.get().bars() % USUAL_BARS == 0 && place % USUAL_BARS == 0;
    return place >= 1 && place <= section.get().bars() && (last || divides)
        ? Optional.of(new End(section.get(), place, most.span()))
        : Optional.empty();
  }

  /** Whether a tune comes to rest in a span: a long last note, or silence after it. */
  boolean comesToRest(List<NoteEvent> tune, Span span) {
    for (int i = 0; i < tune.size(); i++) {
      Span note = tune.get(i).span();
      if (!note.overlaps(span) || note.startSeconds() < span.startSeconds() - 0.3) {
        continue;
      }
      boolean longNote = pulse.beats(note) >= 1.5;
      boolean silenceAfter =
          i + 1 == tune.size()
              || pulse.beats(note.endSeconds(), tune.get(i + 1).span().startSeconds()) >= 1;
      if (longNote || silenceAfter) {
        return true;
      }
    }
    return false;
  }
}
