package undersong.technique.rhythm;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.BarRange;
import undersong.technique.Certainty;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/**
 * Bars longer or shorter than most of the song's; also told where the bars that were read go on,
 * but chords, bass and snare go by others.
 */
final class BarLengths implements TechniqueFinder {
  private final Settings settings;

  BarLengths(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param mostShare of the song's bars that may differ; with more the meter itself is in doubt
   * @param edgeBars at either end of the song that do not count: counting begins and ends there
   * @param crossing when chords, bass and snare go by other bars
   */
  record Settings(double mostShare, int edgeBars, CrossingBars.Settings crossing) {
    static final Settings DEFAULTS = new Settings(0.4, 1, CrossingBars.Settings.DEFAULTS);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.METER_CHANGE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return Set.of(Facet.BEATS, Facet.METER, Facet.FORM, Facet.ROLES);
  }

  @Override
  public Set<Facet<?>> alsoReads() {
    return Set.of(Facet.CHORDS, Facet.BASS, Facet.TEXTURE);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<Bar> bars = pulse.meter().bars();
    if (!pulse.isThere() || bars.size() < 8) {
      return List.of();
    }
    int usual = usualBeats(bars);
    long differing = bars.stream().filter(bar -> bar.beats() != usual).count();
    if (differing > settings.mostShare() * bars.size()) {
      return List.of();
    }
    List<SongSection> sections = SongSection.of(reading);
    List<Finding> findings = new ArrayList<>();
    int i = settings.edgeBars();
    while (i < bars.size() - settings.edgeBars()) {
      int last = i;
      while (last + 1 < bars.size() - settings.edgeBars()
          && bars.get(i).beats() != usual
          && bars.get(last + 1).beats() == bars.get(i).beats()) {
        last++;
      }
      if (bars.get(i).beats() != usual) {
        findings.add(finding(bars.get(i), bars.get(last), usual, sections, pulse));
      }
      i = last + 1;
    }
    if (alsoReads().stream().allMatch(facet -> reading.find(facet).isPresent())) {
      for (CrossingBars crossing : CrossingBars.of(reading, pulse, settings.crossing())) {
        if (findings.stream().noneMatch(f -> f.span().overlaps(crossing.span(pulse)))) {
          findings.add(finding(crossing, reading, usual, sections, pulse));
        }
      }
    }
    return findings;
  }

  private Finding finding(
      CrossingBars crossing, Reading reading, int usual, List<SongSection> sections, Pulse pulse) {
    Span span = crossing.span(pulse);
    List<Double> chords =
        reading.get(Facet.CHORDS).spans().stream()
            .filter(chord -> span.contains(chord.span().startSeconds() + 0.05))
            .map(ChordSpan::probability)
            .toList();
    return FindingDraft.of(Technique.METER_CHANGE, span)
        .bars(pulse.bars(span))
        .sure(
            pulse.beatsProbability(),
            crossing.probability(),
            Certainty.atLeast((int) Math.ceil(0.6 * chords.size()), chords))
        .strength(0.6)
        .group(SongSection.at(sections, span).map(SongSection::letter).orElse("-"))
        .says("summary", crossing.bars(), crossing.beats(), usual)
        .hear("hear", crossing.beats())
        .atLeast("crossing", crossing.bars(), settings.crossing().fewestBars(), "bars")
        .make();
  }

  private static int usualBeats(List<Bar> bars) {
    Map<Integer, Integer> counts = new HashMap<>();
    bars.forEach(bar -> counts.merge(bar.beats(), 1, Integer::sum));
    return counts.entrySet().stream().max(Map.Entry.comparingByValue()).orElseThrow().getKey();
  }

  private static Finding finding(
      Bar first, Bar last, int usual, List<SongSection> sections, Pulse pulse) {
    Span span = new Span(first.span().startSeconds(), last.span().endSeconds());
    BarRange range = new BarRange(first.number(), last.number());
    return FindingDraft.of(Technique.METER_CHANGE, span)
        .bars(java.util.Optional.of(range))
        .sure(pulse.beatsProbability(), pulse.barsProbability())
        .strength(0.6)
        .group(SongSection.at(sections, span).map(SongSection::letter).orElse("-"))
        .says("summary", range.bars(), first.beats(), usual)
        .hear("hear", first.beats())
        .read(Facet.METER, span, first.signature().toString())
        .make();
  }
}
