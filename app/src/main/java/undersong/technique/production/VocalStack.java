package undersong.technique.production;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Voice;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** Where one voice sang, two or more sing now. */
final class VocalStack implements TechniqueFinder {
  private final Settings settings;

  VocalStack(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param fewestNotes sung together
   * @param leastSeconds that the lead sings alone before
   * @param breathSeconds within which a voice goes on singing
   */
  record Settings(int fewestNotes, double leastSeconds, double breathSeconds) {
    static final Settings DEFAULTS = new Settings(4, 4, 6);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.VOCAL_STACK);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.FORM, Facet.ROLES, Facet.MELODY, Facet.VOICES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    List<NoteEvent> together = new ArrayList<>();
    for (Voice voice : reading.get(Facet.VOICES).voices()) {
      voice.notes().stream()
          .filter(note -> note.semitonesAboveLead().isPresent())
          .map(Voice.Sung::event)
          .forEach(together::add);
    }
    together.sort((a, b) -> Double.compare(a.span().startSeconds(), b.span().startSeconds()));
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    int begin = 0;
    double before = 0;
    for (int i = 1; i <= together.size(); i++) {
      if (i == together.size()
          || together.get(i).span().startSeconds() - together.get(i - 1).span().endSeconds()
              > settings.breathSeconds()) {
        List<NoteEvent> stretch = together.subList(begin, i);
        double alone = alone(reading, before, stretch.get(0).span().startSeconds());
        if (stretch.size() >= settings.fewestNotes() && alone >= settings.leastSeconds()) {
          findings.add(finding(stretch, alone, sections, pulse));
        }
        before = stretch.get(stretch.size() - 1).span().endSeconds();
        begin = i;
      }
    }
    return findings;
  }

  /** For how long the lead sings by itself. */
  private static double alone(Reading reading, double from, double to) {
    return to <= from
        ? 0
        : reading.get(Facet.MELODY).notes().stream()
            .mapToDouble(note -> note.span().overlapSeconds(new Span(from, to)))
            .sum();
  }

  private Finding finding(
      List<NoteEvent> stretch, double alone, List<SongSection> sections, Pulse pulse) {
    Span span =
        new Span(
            stretch.get(0).span().startSeconds(),
            stretch.get(stretch.size() - 1).span().endSeconds());
    double heard = stretch.stream().mapToDouble(NoteEvent::probability).average().orElse(0);
    return FindingDraft.of(Technique.VOCAL_STACK, span)
        .bars(pulse.bars(span))
        .sure(heard, Certainty.beyond(stretch.size(), settings.fewestNotes() - 1, 3))
        .strength(0.3 + 0.01 * stretch.size())
        .group(SongSection.at(sections, span).map(SongSection::letter).orElse("-"))
        .says("summary", stretch.size(), alone)
        .hear("hear")
        .atLeast("notes", stretch.size(), settings.fewestNotes(), "notes")
        .make();
  }
}
