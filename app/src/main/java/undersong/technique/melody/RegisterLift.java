package undersong.technique.melody;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.BarChords;
import undersong.technique.BarSteps;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.PitchName;
import undersong.technique.SectionSound;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

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
   * @param leastReturning semitones between the medians of phrases where no names say what to
   *     compare
   * @param sameChordsShare of the bars after two lifts, for the same music
   * @param sureWithoutNames that what is come to from below is a chorus, whatever it is called
   */
  record Settings(
      double leastSemitones,
      double width,
      double leastSungShare,
      double leastReturning,
      double sameChordsShare,
      double sureWithoutNames) {
    static final Settings DEFAULTS = new Settings(3, 1, 0.25, 4, 0.7, 0.85);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.REGISTER_LIFT);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.METER, Facet.FORM, Facet.ROLES, Facet.MELODY, Facet.CHORDS);
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
      return returning(tune, reading);
    }
    OptionalDouble high = SectionSound.medianPitch(tune, chorus.get().span());
    OptionalDouble low = SectionSound.medianPitch(tune, verse.get().span());
    double lift = high.orElse(0) - low.orElse(0);
    if (lift < settings.leastSemitones() - settings.width()) {
      return List.of();
    }
    return List.of(finding(verse.get(), chorus.get(), low.orElse(0), high.orElse(0), reading));
  }

  /** Where the form names no such pair: the same chords are come to from below, twice or more. */
  private List<Finding> returning(List<NoteEvent> tune, Reading reading) {
    BarSteps steps = BarSteps.of(reading);
    List<BarSteps.Step> lifts =
        steps.of(settings.leastReturning(), index -> lift(tune, steps, index)).stream()
            .filter(step -> step.change() > 0 && steps.isPhraseStart(step.index()))
            .toList();
    List<BarSteps.Step> back =
        steps.returning(lifts, BarChords.of(reading), settings.sameChordsShare());
    if (back.isEmpty()) {
      return List.of();
    }
    BarSteps.Step first = back.get(0);
    Span low = steps.span(first.index() - steps.width());
    Span high = steps.span(first.index());
    double from = SectionSound.medianPitch(tune, low).orElse(0);
    double to = SectionSound.medianPitch(tune, high).orElse(0);
    String fromName = PitchName.of(from, low.middleSeconds(), reading);
    String toName = PitchName.of(to, high.middleSeconds(), reading);
    return List.of(
        FindingDraft.of(Technique.REGISTER_LIFT, high)
            .bars(Optional.of(steps.range(first.index())))
            .sure(
                Certainty.beyond(to - from, settings.leastSemitones() - 0.5, settings.width()),
                settings.sureWithoutNames())
            .strength((to - from) / 10)
            .group("returning")
            .says(
                "summary",
                steps.words(first.index()),
                to - from,
                steps.words(first.index() - steps.width()),
                fromName,
                toName)
            .hear(low, "before", fromName)
            .hear("hear", toName)
            .atLeast("lift", to - from, settings.leastReturning(), "semitones")
            .make());
  }

  /** By how much the tune lies higher after a bar line than before; 0 where it is hardly sung. */
  private double lift(List<NoteEvent> tune, BarSteps steps, int index) {
    Span before = steps.span(index - steps.width());
    Span after = steps.span(index);
    boolean sung =
        sungShare(before, tune) >= settings.leastSungShare()
            && sungShare(after, tune) >= settings.leastSungShare();
    return sung
        ? SectionSound.medianPitch(tune, after).orElse(0)
            - SectionSound.medianPitch(tune, before).orElse(0)
        : 0;
  }

  private Optional<SongSection> firstSung(
      List<SongSection> sections, SectionRole role, List<NoteEvent> tune) {
    return sections.stream()
        .filter(section -> section.is(role))
        .filter(section -> sungShare(section.span(), tune) >= settings.leastSungShare())
        .findFirst();
  }

  private static double sungShare(Span span, List<NoteEvent> tune) {
    return tune.stream().mapToDouble(note -> note.span().overlapSeconds(span)).sum()
        / span.lengthSeconds();
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
