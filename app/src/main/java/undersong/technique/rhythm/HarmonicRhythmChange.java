package undersong.technique.rhythm;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.IntSummaryStatistics;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.Certainty;
import undersong.technique.ChordPath;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;

/**
 * Chords change faster or slower than in the section before, and do so throughout: even the slowest
 * phrase of the faster section is faster than the quickest of the slower one. Beginnings and
 * endings of a song, where chords mostly stand, are not compared. Told the first time.
 */
final class HarmonicRhythmChange implements TechniqueFinder {
  /** A chord that arrives so early belongs to the phrase it leads into. */
  private static final double NEAR_BARS = 0.3;

  private final Settings settings;

  HarmonicRhythmChange(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastFactor between chords per bar
   * @param leastBars of both sections
   * @param leastChords in both: fewer are no rhythm
   * @param phraseBars after which chords are counted anew
   */
  record Settings(double leastFactor, int leastBars, int leastChords, int phraseBars) {
    static final Settings DEFAULTS = new Settings(1.5, 8, 3, 4);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.HARMONIC_RHYTHM_CHANGE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.METER, Facet.CHORDS, Facet.HARMONY, Facet.FORM, Facet.ROLES);
  }

  @Override
  public List<Finding> find(Reading reading) {
    ChordPath path = ChordPath.of(reading);
    List<SongSection> sections = SongSection.of(reading);
    Set<String> told = new HashSet<>();
    List<Finding> findings = new ArrayList<>();
    for (int i = 1; i < sections.size(); i++) {
      SongSection before = sections.get(i - 1);
      SongSection here = sections.get(i);
      int chordsBefore = path.within(before.span()).size();
      int chordsHere = path.within(here.span()).size();
      boolean bothLong = Math.min(before.bars(), here.bars()) >= settings.leastBars();
      boolean enough = Math.min(chordsBefore, chordsHere) >= settings.leastChords();
      double slow = (double) chordsBefore / before.bars();
      double fast = (double) chordsHere / here.bars();
      double factor = Math.max(slow, fast) / Math.max(1e-9, Math.min(slow, fast));
      if (bothLong
          && enough
          && !atAnEdge(before)
          && !atAnEdge(here)
          && throughout(path, before, here)
          && factor >= settings.leastFactor()
          && told.add(before.letter() + here.letter())) {
        findings.add(finding(before, here, slow, fast, factor, path));
      }
    }
    return findings;
  }

  private static boolean atAnEdge(SongSection section) {
    return section.is(SectionRole.INTRO) || section.is(SectionRole.OUTRO);
  }

  /** Whether the phrases of two sections keep apart. */
  private boolean throughout(ChordPath path, SongSection one, SongSection other) {
    IntSummaryStatistics first = arrivals(path, one);
    IntSummaryStatistics second = arrivals(path, other);
    return first.getMin() > second.getMax() || second.getMin() > first.getMax();
  }

  /** Chords that arrive in each whole phrase. */
  private IntSummaryStatistics arrivals(ChordPath path, SongSection section) {
    int phrases = Math.max(1, section.bars() / settings.phraseBars());
    double phraseSeconds = section.span().lengthSeconds() * settings.phraseBars() / section.bars();
    int[] counts = new int[phrases];
    for (int i : path.within(section.span())) {
      double after = path.get(i).span().startSeconds() - section.span().startSeconds();
      int phrase = (int) Math.floor(after / phraseSeconds + NEAR_BARS / settings.phraseBars());
      if (phrase < phrases) {
        counts[Math.max(0, phrase)]++;
      }
    }
    return Arrays.stream(counts).summaryStatistics();
  }

  private Finding finding(
      SongSection before,
      SongSection here,
      double perBarBefore,
      double perBarHere,
      double factor,
      ChordPath path) {
    List<Double> sure = new ArrayList<>();
    path.within(before.span()).forEach(i -> sure.add(path.get(i).sureOfRoot()));
    path.within(here.span()).forEach(i -> sure.add(path.get(i).sureOfRoot()));
    return FindingDraft.of(Technique.HARMONIC_RHYTHM_CHANGE, here.span())
        .bars(here.barRange())
        .sure(
            before.section().probability() * 0.5 + 0.5,
            Certainty.atLeast((int) Math.ceil(0.6 * sure.size()), sure),
            Certainty.beyond(factor, settings.leastFactor() - 0.1, 0.3))
        .strength(0.15 * factor)
        .group(before.letter() + here.letter())
        .says(
            perBarHere > perBarBefore ? "summary.faster" : "summary.slower",
            here.words(),
            perBarHere,
            perBarBefore,
            before.words())
        .hear(before.span(), "before")
        .hear("hear")
        .atLeast("factor", factor, settings.leastFactor(), "times")
        .make();
  }
}
