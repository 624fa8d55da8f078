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
    return section.isEmpty() || most == null ? Optional.empty() : endAt(section.get(), most);
  }

  /** The phrase end with whose last bar a chord ends, however many bars it filled. */
  Optional<End> endWith(Span chord) {
    Optional<SongSection> section = SongSection.at(sections, chord);
    Bar last = null;
    for (Bar bar : pulse.meter().bars()) {
      if (bar.span().overlapSeconds(chord) > 0.5 * bar.span().lengthSeconds()) {
        last = bar;
      }
    }
    return section.isEmpty() || last == null ? Optional.empty() : endAt(section.get(), last);
  }

  private static Optional<End> endAt(SongSection section, Bar most) {
    int place = most.number() - section.section().firstBar() + 1;
    boolean last = most.number() == section.section().lastBar();
    boolean divides = section.bars() % USUAL_BARS == 0 && place % USUAL_BARS == 0;
    return place >= 1 && place <= section.bars() && (last || divides)
        ? Optional.of(new End(section, place, most.span()))
        : Optional.empty();
  }

  /**
   * Whether a tune comes to rest in the last bar of a phrase: a long last note, or silence after
   * it, or nothing in that bar after what was sung in the one before.
   */
  boolean comesToRest(List<NoteEvent> tune, Span span) {
    boolean rested = false;
    boolean begins = false;
    for (int i = 0; i < tune.size(); i++) {
      Span note = tune.get(i).span();
      double before = span.startSeconds() - note.endSeconds();
      rested |= before > -0.3 && before < span.lengthSeconds();
      begins |= note.overlaps(span) && note.startSeconds() >= span.startSeconds() - 0.3;
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
    return rested && !begins;
  }
}
