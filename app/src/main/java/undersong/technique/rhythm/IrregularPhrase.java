package undersong.technique.rhythm;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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

/**
 * A section longer or shorter than its fellows by bars that do not make up whole phrases of four.
 * Intros and outros are as long as they like, and so is whatever ends the song.
 */
final class IrregularPhrase implements TechniqueFinder {
  private static final int PHRASE_BARS = 4;
  private static final Set<SectionRole> FREE =
      EnumSet.of(SectionRole.INTRO, SectionRole.OUTRO, SectionRole.BREAK);

  private final Settings settings;

  IrregularPhrase(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param sureByFellows how telling a difference from other sections of the name is
   * @param sureAlone how telling an odd length is where the name has no fellows
   */
  record Settings(double sureByFellows, double sureAlone) {
    static final Settings DEFAULTS = new Settings(0.9, 0.45);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.IRREGULAR_PHRASE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.FORM, Facet.ROLES, Facet.METER);
  }

  @Override
  public List<Finding> find(Reading reading) {
    double barsProbability = reading.get(Facet.METER).probability();
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (SongSection section : sections) {
      List<SongSection> fellows =
          sections.stream().filter(other -> other.role() == section.role()).toList();
      Optional<Integer> usual = fellows.size() < 2 ? Optional.empty() : usualBars(fellows);
      boolean whole = section.bars() % PHRASE_BARS == 0;
      boolean another = usual.filter(bars -> bars == section.bars()).isEmpty();
      boolean ends = section.place() == sections.size() - 1;
      if (!ends && !FREE.contains(section.role()) && !whole && another && section.bars() > 2) {
        findings.add(finding(section, usual, barsProbability));
      }
    }
    return findings;
  }

  /** The length most of them have; empty where no two agree. */
  private static Optional<Integer> usualBars(List<SongSection> sections) {
    Map<Integer, Integer> counts = new HashMap<>();
    sections.forEach(section -> counts.merge(section.bars(), 1, Integer::sum));
    return counts.entrySet().stream()
        .filter(entry -> entry.getValue() >= 2)
        .max(Map.Entry.comparingByValue())
        .map(Map.Entry::getKey);
  }

  private Finding finding(SongSection section, Optional<Integer> usual, double barsProbability) {
    FindingDraft draft =
        FindingDraft.of(Technique.IRREGULAR_PHRASE, section.span())
            .bars(section.barRange())
            .sure(
                barsProbability,
                section.section().probability(),
                usual.isPresent() ? settings.sureByFellows() : settings.sureAlone())
            .strength(0.4)
            .group(section.letter())
            .hear("hear", section.bars())
            .read(Facet.FORM, section.span(), section.letter() + section.section().occurrence());
    return usual
        .map(bars -> draft.says("summary", section.words(), section.bars(), bars))
        .orElseGet(() -> draft.says("summary.alone", section.words(), section.bars()))
        .make();
  }
}
