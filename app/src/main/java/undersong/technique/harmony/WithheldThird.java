package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/**
 * The third is left out for two bars or more, so that the quality stays open. Where it is settled
 * later is told by whoever reads the repeats.
 */
final class WithheldThird implements TechniqueFinder {
  private final Settings settings;

  WithheldThird(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastBars for which the third must be missing
   * @param everydayShare of the song's chords without third beyond which nothing special is left
   */
  record Settings(double leastBars, double everydayShare) {
    static final Settings DEFAULTS = new Settings(2, 0.5);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.WITHHELD_THIRD);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.CHORDS_IN_SECTIONS;
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    List<SongSection> sections = SongSection.of(reading);
    ChordPath path = ChordPath.of(reading);
    double share = shareWithoutThird(path);
    List<Finding> findings = new ArrayList<>();
    int i = 0;
    while (i < path.size()) {
      if (!open(path.get(i))) {
        i++;
        continue;
      }
      int last = i;
      String letter = sectionKey(sections, path.get(i).span());
      while (path.goesOn(last)
          && open(path.get(last + 1))
          && sectionKey(sections, path.get(last + 1).span()).equals(letter)) {
        last++;
      }
      // A little short of the limit by rounding is not short of it.
      if (pulse.lengthBars(path.span(i, last)) >= settings.leastBars() - 0.1) {
        findings.add(finding(path, i, last, share, pulse));
      }
      i = last + 1;
    }
    return findings;
  }

  private static String sectionKey(List<SongSection> sections, Span span) {
    return SongSection.at(sections, span).map(section -> "" + section.place()).orElse("-");
  }

  private static boolean open(ChordStep step) {
    boolean bare = step.chord().quality().hasNoThird() && !suspended(step);
    return bare && !step.heard().third().sounds();
  }

  private static boolean suspended(ChordStep step) {
    return step.chord().quality().contains(2) || step.chord().quality().contains(5);
  }

  private static double shareWithoutThird(ChordPath path) {
    double all = 0;
    double open = 0;
    for (ChordStep step : path.steps()) {
      all += step.span().lengthSeconds();
      open += open(step) ? step.span().lengthSeconds() : 0;
    }
    return all > 0 ? open / all : 0;
  }

  private Finding finding(ChordPath path, int first, int last, double share, Pulse pulse) {
    Span span = path.span(first, last);
    List<ChordStep> steps = path.steps().subList(first, last + 1);
    boolean bassAlone = steps.stream().noneMatch(step -> step.chord().quality().contains(7));
    List<Double> sure = new ArrayList<>();
    for (ChordStep step : steps) {
      sure.add(step.sure(chord -> chord.quality().hasNoThird()));
    }
    double mean = sure.stream().mapToDouble(Double::doubleValue).average().orElse(0);
    FindingDraft draft =
        FindingDraft.of(Technique.WITHHELD_THIRD, span)
            .bars(pulse.bars(span))
            .sure(mean)
            .strength(share > settings.everydayShare() ? 0.05 : 0.3)
            .group("open")
            .says(bassAlone ? "summary.bass" : "summary", HarmonyFinders.chords(steps))
            .hear("hear")
            .atLeast("bars", pulse.lengthBars(span), settings.leastBars(), "bars");
    steps.forEach(step -> draft.read(Facet.CHORDS, step.span(), step.chordText()));
    return draft.make();
  }
}
