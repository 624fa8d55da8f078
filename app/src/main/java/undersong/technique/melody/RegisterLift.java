package undersong.technique.melody;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.PitchName;
import undersong.technique.SectionSound;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** The tune of the chorus sits higher than that of the verse. Told at the first chorus. */
final class RegisterLift implements TechniqueFinder {
  private final Settings settings;

  RegisterLift(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastSemitones between the medians
   * @param width of the doubt about that limit, in semitones
   * @param leastSungShare of a section that must be sung to have a register
   */
  record Settings(double leastSemitones, double width, double leastSungShare) {
    static final Settings DEFAULTS = new Settings(3, 1, 0.25);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.REGISTER_LIFT);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.METER, Facet.FORM, Facet.ROLES, Facet.MELODY);
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.KEYS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    List<NoteEvent> tune = reading.get(Facet.MELODY).notes();
    List<SongSection> sections = SongSection.of(reading);
    Optional<SongSection> chorus = firstSung(sections, SectionRole.CHORUS, tune);
    Optional<SongSection> verse = firstSung(sections, SectionRole.VERSE, tune);
    if (chorus.isEmpty() || verse.isEmpty()) {
      return List.of();
    }
    OptionalDouble high = SectionSound.medianPitch(tune, chorus.get().span());
    OptionalDouble low = SectionSound.medianPitch(tune, verse.get().span());
    double lift = high.orElse(0) - low.orElse(0);
    if (lift < settings.leastSemitones() - settings.width()) {
      return List.of();
    }
    return List.of(finding(verse.get(), chorus.get(), low.orElse(0), high.orElse(0), reading));
  }

  private Optional<SongSection> firstSung(
      List<SongSection> sections, SectionRole role, List<NoteEvent> tune) {
    return sections.stream()
        .filter(section -> section.is(role))
        .filter(section -> sungShare(section, tune) >= settings.leastSungShare())
        .findFirst();
  }

  private static double sungShare(SongSection section, List<NoteEvent> tune) {
    return tune.stream().mapToDouble(note -> note.span().overlapSeconds(section.span())).sum()
        / section.span().lengthSeconds();
  }

  private Finding finding(
      SongSection verse, SongSection chorus, double low, double high, Reading reading) {
    double lift = high - low;
    String from = PitchName.of(low, verse.span().middleSeconds(), reading);
    String to = PitchName.of(high, chorus.span().middleSeconds(), reading);
    double octaves =
        reading.get(Facet.MELODY).notes().stream()
            .filter(
                note -> note.span().overlaps(chorus.span()) || note.span().overlaps(verse.span()))
            .mapToDouble(NoteEvent::probability)
            .average()
            .orElse(0);
    return FindingDraft.of(Technique.REGISTER_LIFT, chorus.span())
        .bars(chorus.barRange())
        .sure(
            Certainty.beyond(lift, settings.leastSemitones() - 0.5, settings.width()),
            verse.sureOfName(),
            chorus.sureOfName(),
            // A median stands even where single notes are doubtful.
            Math.sqrt(octaves))
        .strength(lift / 10)
        .group(chorus.letter())
        .says("summary", chorus.words(), lift, verse.words(), from, to)
        .hear(verse.span(), "before", from)
        .hear("hear", to)
        .atLeast("lift", lift, settings.leastSemitones(), "semitones")
        .make();
  }
}
