package undersong.technique.form;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.BarChords;
import undersong.technique.BarRange;
import undersong.technique.BarSteps;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SectionSound;
import undersong.technique.Sentence;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.technique.form.Gains.Gain;
import undersong.technique.form.Gains.Limits;
import undersong.time.Span;

/** The chorus bursts out of the verse in three respects or more. Told at the first chorus. */
final class BreakoutChorus implements TechniqueFinder {
  private final Settings settings;

  BreakoutChorus(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastRespects in which the chorus is more than the verse
   * @param limits from which a difference counts
   * @param leastLouderLu where the form names no verse and chorus to compare
   * @param sameChordsShare of the bars that burst out twice, for the same music
   * @param sureWithoutNames that what bursts out is a chorus, whatever it is called
   */
  record Settings(
      int leastRespects,
      Limits limits,
      double leastLouderLu,
      double sameChordsShare,
      double sureWithoutNames) {
    static final Settings DEFAULTS = new Settings(3, new Limits(2, 1.25, 1.5, 3, 3), 1, 0.7, 0.85);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.BREAKOUT_CHORUS);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(
        Facet.METER,
        Facet.CHORDS,
        Facet.FORM,
        Facet.ROLES,
        Facet.DYNAMICS,
        Facet.MELODY,
        Facet.SPACE,
        Facet.TEXTURE);
  }

  @Override
  public List<Finding> find(Reading reading) {
    List<SongSection> sections = SongSection.of(reading);
    Optional<SongSection> chorus =
        sections.stream().filter(section -> section.is(SectionRole.CHORUS)).findFirst();
    Optional<SongSection> verse =
        chorus.flatMap(
            c ->
                sections.stream()
                    .filter(s -> s.is(SectionRole.VERSE) && s.place() < c.place())
                    .reduce((earlier, later) -> later));
    if (verse.isEmpty()) {
      return returning(reading);
    }
    List<Gain> gains =
        Gains.of(
            SectionSound.of(reading, chorus.orElseThrow()),
            SectionSound.of(reading, verse.get()),
            settings.limits());
    List<Gain> counting = gains.stream().filter(Gain::counts).toList();
    return counting.size() < settings.leastRespects()
        ? List.of()
        : List.of(finding(verse.get(), chorus.orElseThrow(), counting));
  }

  /** Where the form names no such pair: the same chords burst out twice or more. */
  private List<Finding> returning(Reading reading) {
    BarSteps steps = BarSteps.of(reading);
    List<BarSteps.Step> louder =
        steps.ofLevels(reading.get(Facet.DYNAMICS).barLufs(), settings.leastLouderLu()).stream()
            .filter(step -> step.change() > 0)
            .filter(step -> gains(reading, steps, step.index()).size() >= settings.leastRespects())
            .toList();
    List<BarSteps.Step> back =
        steps.returning(louder, BarChords.of(reading), settings.sameChordsShare());
    if (back.isEmpty()) {
      return List.of();
    }
    int first = back.get(0).index();
    return List.of(
        finding(
            FindingDraft.of(Technique.BREAKOUT_CHORUS, steps.span(first))
                .bars(Optional.of(steps.range(first)))
                .group("returning"),
            gains(reading, steps, first),
            settings.sureWithoutNames(),
            steps.words(first),
            steps.words(first - steps.width()),
            steps.span(first - steps.width())));
  }

  private List<Gain> gains(Reading reading, BarSteps steps, int index) {
    BarRange after = steps.range(index);
    BarRange before = steps.range(index - steps.width());
    return Gains.of(
            SectionSound.of(reading, after.first(), after.last()),
            SectionSound.of(reading, before.first(), before.last()),
            settings.limits())
        .stream()
        .filter(Gain::counts)
        .toList();
  }

  private Finding finding(SongSection verse, SongSection chorus, List<Gain> gains) {
    return finding(
        FindingDraft.of(Technique.BREAKOUT_CHORUS, chorus.span())
            .bars(chorus.barRange())
            .group(chorus.letter()),
        gains,
        Certainty.all(verse.sureOfName(), chorus.sureOfName()),
        chorus.words(),
        verse.words(),
        verse.span());
  }

  private Finding finding(
      FindingDraft draft, List<Gain> gains, double sure, Sentence high, Sentence low, Span before) {
    draft
        .sure(sure, Certainty.beyond(gains.size(), settings.leastRespects() - 0.8, 1))
        .strength(0.2 * gains.size())
        .says("summary", high, Drama.respects(gains), low)
        .hear(before, "before")
        .hear("hear");
    gains.forEach(
        gain ->
            draft.atLeast(gain.respect().key(), gain.value(), gain.limit(), gain.respect().unit()));
    return draft.make();
  }
}
