package undersong.technique.form;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/** The first section after any intro is a chorus that comes back later. */
final class ChorusFirst implements TechniqueFinder {
  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.CHORUS_FIRST);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.FORM, Facet.ROLES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    List<SongSection> sections = SongSection.of(reading);
    Optional<SongSection> first =
        sections.stream().filter(section -> !section.is(SectionRole.INTRO)).findFirst();
    boolean verseFollows =
        first.isPresent()
            && sections.stream()
                .anyMatch(
                    section ->
                        section.place() > first.get().place() && section.is(SectionRole.VERSE));
    boolean returns =
        first.isPresent()
            && sections.stream()
                .anyMatch(
                    section ->
                        section.place() > first.get().place()
                            && section.letter().equals(first.get().letter()));
    if (first.isEmpty() || !first.get().is(SectionRole.CHORUS) || !returns || !verseFollows) {
      return List.of();
    }
    SongSection chorus = first.get();
    return List.of(
        FindingDraft.of(Technique.CHORUS_FIRST, chorus.span())
            .bars(chorus.barRange())
            // Where exactly it ends is another question.
            .sure(chorus.named().probability())
            .strength(0.6)
            .group(chorus.letter())
            .says(chorus.place() == 0 ? "summary" : "summary.intro")
            .hear("hear")
            .read(Facet.ROLES, chorus.span(), chorus.role().words())
            .make());
  }
}
