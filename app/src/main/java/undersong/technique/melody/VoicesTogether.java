package undersong.technique.melody;

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
import undersong.technique.Part;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** A second voice that moves with the tune, in thirds and sixths or at the octave. */
final class VoicesTogether implements TechniqueFinder {
  private static final Set<Integer> THIRDS_AND_SIXTHS = Set.of(3, 4, 8, 9, 15, 16);
  private static final Set<Integer> OCTAVES = Set.of(12, 24);

  private final Settings settings;

  VoicesTogether(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastShare of the notes sung with the tune that must lie at such intervals
   * @param width of the doubt about that limit
   * @param fewestNotes sung with the tune
   * @param onsetSeconds within which two notes begin together
   */
  record Settings(double leastShare, double width, int fewestNotes, double onsetSeconds) {
    static final Settings DEFAULTS = new Settings(0.7, 0.12, 5, 0.1);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.PARALLEL_HARMONY, Technique.OCTAVE_DOUBLING);
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
    List<NoteEvent> lead = reading.get(Facet.MELODY).notes();
    List<Finding> findings = new ArrayList<>();
    for (Voice voice : reading.get(Facet.VOICES).voices()) {
      for (SongSection section : SongSection.of(reading)) {
        List<Voice.Sung> sung =
            voice.notes().stream()
                .filter(n -> section.span().contains(n.event().span().middleSeconds()))
                .filter(n -> n.semitonesAboveLead().isPresent() && together(n, lead))
                .toList();
        if (sung.size() >= settings.fewestNotes()) {
          find(
              Technique.PARALLEL_HARMONY, THIRDS_AND_SIXTHS, voice, section, sung, pulse, findings);
          find(Technique.OCTAVE_DOUBLING, OCTAVES, voice, section, sung, pulse, findings);
        }
      }
    }
    return findings;
  }

  private boolean together(Voice.Sung note, List<NoteEvent> lead) {
    double start = note.event().span().startSeconds();
    return lead.stream()
        .anyMatch(n -> Math.abs(n.span().startSeconds() - start) <= settings.onsetSeconds());
  }

  private void find(
      Technique technique,
      Set<Integer> intervals,
      Voice voice,
      SongSection section,
      List<Voice.Sung> sung,
      Pulse pulse,
      List<Finding> findings) {
    long fitting =
        sung.stream()
            .filter(n -> intervals.contains(Math.abs(n.semitonesAboveLead().orElseThrow())))
            .count();
    double share = (double) fitting / sung.size();
    if (share < settings.leastShare() - settings.width()) {
      return;
    }
    Span span =
        new Span(
            sung.get(0).event().span().startSeconds(),
            sung.get(sung.size() - 1).event().span().endSeconds());
    double above =
        sung.stream().mapToInt(n -> n.semitonesAboveLead().orElseThrow()).average().orElse(0);
    double heard = sung.stream().mapToDouble(n -> n.event().probability()).average().orElse(0);
    findings.add(
        FindingDraft.of(technique, span)
            .bars(pulse.bars(span))
            .sure(
                Certainty.beyond(
                    share, settings.leastShare() - settings.width() / 2, settings.width()),
                heard)
            .strength(0.3 + 0.4 * share)
            .group(voice.name() + " " + section.letter())
            .says(
                above > 0 ? "summary.above" : "summary.below",
                new Part(voice.name(), List.of()).words(),
                section.words(),
                fitting,
                sung.size())
            .hear("hear")
            .atLeast("share", 100 * share, 100 * settings.leastShare(), "%")
            .make());
  }
}
