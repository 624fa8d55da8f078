package undersong.technique.rhythm;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import undersong.reading.ChordSpan;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.BarRange;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.theory.ChordSymbol;
import undersong.time.Span;

/**
 * A section longer or shorter than its fellows by bars that do not make up whole phrases of four.
 * Intros and outros are as long as they like. What ends the song is counted up to its last chord,
 * which may belong to the phrase or not: both lengths must be odd.
 */
final class IrregularPhrase implements TechniqueFinder {
  private static final int PHRASE_BARS = 4;

  /** A chord may be heard a little before its bar line. */
  private static final double ROUNDING_SECONDS = 0.1;

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
    return Set.of(Facet.FORM, Facet.ROLES, Facet.METER, Facet.CHORDS, Facet.BASS, Facet.MELODY);
  }

  @Override
  public List<Finding> find(Reading reading) {
    double barsProbability = reading.get(Facet.METER).probability();
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    for (SongSection section : sections) {
      boolean ends = section.place() == sections.size() - 1;
      int ringing = ends ? ringingBars(section, reading) : 0;
      int bars = section.bars() - ringing;
      List<SongSection> fellows =
          sections.stream().filter(other -> other.role() == section.role()).toList();
      Optional<Integer> usual = fellows.size() < 2 ? Optional.empty() : usualBars(fellows);
      boolean odd = isOdd(bars, usual) && (!ends || (usual.isPresent() && isOdd(bars + 1, usual)));
      if (!FREE.contains(section.role()) && odd && bars > 2) {
        findings.add(finding(section, bars, usual, barsProbability));
      }
    }
    return findings;
  }

  private static boolean isOdd(int bars, Optional<Integer> usual) {
    return bars % PHRASE_BARS != 0 && usual.filter(other -> other == bars).isEmpty();
  }

  /** Bars at the end of the song from the one on in which its last chord or note begins. */
  private static int ringingBars(SongSection section, Reading reading) {
    double last =
        Stream.of(
                reading.get(Facet.CHORDS).spans().stream()
                    .filter(chord -> chord.symbol() instanceof ChordSymbol.Chord)
                    .map(ChordSpan::span),
                reading.get(Facet.BASS).notes().stream().map(NoteEvent::span),
                reading.get(Facet.MELODY).notes().stream().map(NoteEvent::span))
            .flatMap(spans -> spans)
            .mapToDouble(Span::startSeconds)
            .max()
            .orElse(Double.POSITIVE_INFINITY);
    return (int)
        reading.get(Facet.METER).bars().stream()
            .filter(bar -> bar.number() <= section.section().lastBar())
            .filter(bar -> bar.span().endSeconds() > last + ROUNDING_SECONDS)
            .count();
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

  private Finding finding(
      SongSection section, int bars, Optional<Integer> usual, double barsProbability) {
    FindingDraft draft =
        FindingDraft.of(Technique.IRREGULAR_PHRASE, section.span())
            .bars(
                Optional.of(
                    new BarRange(
                        section.section().firstBar(), section.section().firstBar() + bars - 1)))
            .sure(
                barsProbability,
                section.section().probability(),
                usual.isPresent() ? settings.sureByFellows() : settings.sureAlone())
            .strength(0.4)
            .group(section.letter())
            .hear("hear", bars)
            .read(Facet.FORM, section.span(), section.letter() + section.section().occurrence());
    return usual
        .map(other -> draft.says("summary", section.words(), bars, other))
        .orElseGet(() -> draft.says("summary.alone", section.words(), bars))
        .make();
  }
}
