package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.SongSection;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.technique.harmony.Loops.Loop;
import undersong.time.Span;

/** A short progression goes round: named by its degrees, the same loop wherever it begins. */
final class ChordLoop implements TechniqueFinder {
  private final Settings settings;

  ChordLoop(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastRounds of the loop in the song
   * @param leastInARow of them in one place, for that place to be told
   * @param leastCounted of them in one place, for that place to count
   */
  record Settings(double leastRounds, double leastInARow, double leastCounted) {
    static final Settings DEFAULTS = new Settings(3, 1.9, 1.4);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.CHORD_LOOP);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.CHORDS_IN_SECTIONS;
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    ChordPath path = ChordPath.of(reading);
    List<Loop> loops = Loops.of(path, SongSection.of(reading), pulse, settings.leastCounted());
    Map<List<Integer>, Double> rounds = new HashMap<>();
    loops.forEach(loop -> rounds.merge(Loops.turned(path, loop), loop.rounds(), Double::sum));
    List<Finding> findings = new ArrayList<>();
    for (Loop loop : loops) {
      double inSong = rounds.get(Loops.turned(path, loop));
      if (inSong >= settings.leastRounds() && loop.rounds() >= settings.leastInARow()) {
        findings.add(finding(path, loop, inSong, pulse));
      }
    }
    return findings;
  }

  private Finding finding(ChordPath path, Loop loop, double rounds, Pulse pulse) {
    Span span = path.span(loop.first(), loop.last());
    List<ChordStep> steps = path.steps().subList(loop.first(), loop.last() + 1);
    List<ChordStep> round = steps.subList(0, loop.period());
    int needed = (int) Math.ceil(0.75 * steps.size());
    FindingDraft draft =
        FindingDraft.of(Technique.CHORD_LOOP, span)
            .bars(pulse.bars(span))
            .sure(Certainty.atLeast(needed, steps.stream().map(ChordStep::sureOfRoot).toList()))
            .strength(0.2)
            .group(Loops.turned(path, loop).toString())
            .says("summary", HarmonyFinders.numerals(round), loop.rounds(), rounds)
            .hear("hear", HarmonyFinders.chords(round))
            .atLeast("rounds", rounds, settings.leastRounds(), "times");
    round.forEach(step -> draft.read(Facet.HARMONY, step.span(), step.numeralText()));
    return draft.make();
  }
}
