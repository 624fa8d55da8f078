package undersong.technique.form;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SectionSound;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.technique.form.Gains.Gain;
import undersong.technique.form.Gains.Limits;

/** The chorus bursts out of the verse in three respects or more. Told at the first chorus. */
final class BreakoutChorus implements TechniqueFinder {
  private final Settings settings;

  BreakoutChorus(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastRespects in which the chorus is more than the verse
   * @param limits from which a difference counts
   */
  record Settings(int leastRespects, Limits limits) {
    static final Settings DEFAULTS = new Settings(3, new Limits(2, 1.25, 1.5, 3, 3));
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.BREAKOUT_CHORUS);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(
        Facet.METER,
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
      return List.of();
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

  private Finding finding(SongSection verse, SongSection chorus, List<Gain> gains) {
    FindingDraft draft =
        FindingDraft.of(Technique.BREAKOUT_CHORUS, chorus.span())
            .bars(chorus.barRange())
            .sure(
                verse.sureOfName(),
                chorus.sureOfName(),
                Certainty.beyond(gains.size(), settings.leastRespects() - 0.8, 1))
            .strength(0.2 * gains.size())
            .group(chorus.letter())
            .says("summary", chorus.words(), Drama.respects(gains), verse.words())
            .hear(verse.span(), "before")
            .hear("hear");
    gains.forEach(
        gain ->
            draft.atLeast(gain.respect().key(), gain.value(), gain.limit(), gain.respect().unit()));
    return draft.make();
  }
}
