package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
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

/**
 * Major chords whose roots fall by fourths onto the tonic, three or more of them (bVII IV I), or IV
 * to I at the end of a phrase with the tune at rest. Chains of one section are told once.
 */
final class PlagalChain implements TechniqueFinder {
  private static final int LEAST_CHORDS = 3;
  private static final double LOOP_ROUNDS = 1.9;

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.PLAGAL_CHAIN);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.with(Facet.MELODY);
  }

  /** Places of the first and last chord of a chain. */
  private record Chain(int first, int last) {
    int chords() {
      return last - first + 1;
    }
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    if (!pulse.isThere()) {
      return List.of();
    }
    List<SongSection> sections = SongSection.of(reading);
    ChordPath path = ChordPath.of(reading);
    List<Loop> loops = Loops.of(path, sections, pulse, LOOP_ROUNDS);
    Phrases phrases = new Phrases(pulse, sections);
    List<NoteEvent> tune = reading.get(Facet.MELODY).notes();
    List<Finding> findings = new ArrayList<>();
    for (SongSection section : sections) {
      List<Chain> chains = new ArrayList<>();
      for (int i : path.within(section.span())) {
        Chain chain = endingAt(path, i);
        boolean inLoop = loops.stream().anyMatch(loop -> loop.contains(i));
        boolean closes =
            chain.chords() == 2
                && !inLoop
                && phrases
                    .endAt(path.get(i).span())
                    .filter(end -> phrases.comesToRest(tune, end.bar()))
                    .isPresent();
        if (chain.chords() >= LEAST_CHORDS || closes) {
          chains.add(chain);
        }
      }
      if (!chains.isEmpty()) {
        findings.add(finding(path, chains, pulse));
      }
    }
    return findings;
  }

  /** The longest chain that ends with this chord; the chord alone where it ends none. */
  private static Chain endingAt(ChordPath path, int i) {
    int first = i;
    boolean home = path.get(i).tonic();
    while (home
        && path.goesOn(first - 1)
        && fallsByFourth(path.get(first - 1), path.get(first))
        && i - first < 4) {
      first--;
    }
    return new Chain(first, i);
  }

  private static boolean fallsByFourth(ChordStep one, ChordStep other) {
    boolean samePlace = one.key().tonic().equals(other.key().tonic());
    boolean subdominantSide = Set.of(5, 10, 3, 8).contains(one.root());
    return samePlace
        && subdominantSide
        && one.major()
        && !one.applied()
        && Math.floorMod(other.root() - one.root(), 12) == 7;
  }

  private static Finding finding(ChordPath path, List<Chain> chains, Pulse pulse) {
    Chain longest = chains.get(0);
    for (Chain chain : chains) {
      longest = chain.chords() > longest.chords() ? chain : longest;
    }
    Span span = path.span(chains.get(0).first(), chains.get(chains.size() - 1).last());
    List<ChordStep> steps = path.steps().subList(longest.first(), longest.last() + 1);
    double sure = steps.get(0).keyProbability();
    for (ChordStep step : steps) {
      sure *= step.sureOfRoot();
    }
    int chords = longest.chords();
    FindingDraft draft =
        FindingDraft.of(Technique.PLAGAL_CHAIN, span)
            .bars(pulse.bars(span))
            .sure(sure)
            .strength(0.1 + 0.15 * chords)
            .group(HarmonyFinders.numerals(steps))
            .says(
                chords > 2 ? "summary" : "summary.close",
                HarmonyFinders.numerals(steps),
                HarmonyFinders.chords(steps),
                chains.size())
            .hear(path.span(longest.first(), longest.last()), "hear");
    for (Chain chain : chains) {
      for (ChordStep step : path.steps().subList(chain.first(), chain.last() + 1)) {
        draft.read(Facet.HARMONY, step.span(), step.numeralText());
      }
    }
    return draft.make();
  }
}
