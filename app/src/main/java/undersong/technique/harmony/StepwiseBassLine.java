package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Certainty;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Finding;
import undersong.technique.FindingDraft;
import undersong.technique.Pulse;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/**
 * The bass moves by step in one direction under changing chords, two of which at least do not stand
 * on their root; the fall from 1 to 5 in minor (the lament) needs no such chords.
 */
final class StepwiseBassLine implements TechniqueFinder {
  private static final List<Integer> LAMENT = List.of(0, 10, 8, 7);
  private static final List<Integer> CHROMATIC_LAMENT = List.of(0, 11, 10, 9, 8, 7);

  private final Settings settings;

  StepwiseBassLine(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastChords in the line
   * @param leastInverted of them that do not stand on their root
   */
  record Settings(int leastChords, int leastInverted) {
    static final Settings DEFAULTS = new Settings(3, 2);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.STEPWISE_BASS_LINE);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.CHORDS_IN_SECTIONS;
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    ChordPath path = ChordPath.of(reading);
    List<Finding> findings = new ArrayList<>();
    int i = 0;
    while (i + 1 < path.size()) {
      int direction = path.goesOn(i) ? step(path, i) : 0;
      int last = i;
      while (direction != 0 && path.goesOn(last) && step(path, last) == direction) {
        last++;
      }
      if (last - i + 1 >= settings.leastChords()) {
        List<ChordStep> steps = path.steps().subList(i, last + 1);
        long inverted = steps.stream().filter(step -> step.chord().isInverted()).count();
        boolean lament = isLament(steps);
        if (lament || inverted >= settings.leastInverted()) {
          findings.add(finding(path, i, last, lament, (int) inverted, pulse));
        }
      }
      i = Math.max(last, i + 1);
    }
    return findings;
  }

  /** 1 where the bass rises by step into the next chord, -1 where it falls, else 0. */
  private static int step(ChordPath path, int i) {
    int up =
        Math.floorMod(
            path.get(i + 1).chord().bass().pitchClass() - path.get(i).chord().bass().pitchClass(),
            12);
    return up == 1 || up == 2 ? 1 : up == 10 || up == 11 ? -1 : 0;
  }

  private static boolean isLament(List<ChordStep> steps) {
    List<Integer> bass = steps.stream().map(ChordStep::bass).toList();
    return steps.get(0).key().mode().hasMinorThird()
        && (startsWith(bass, LAMENT) || startsWith(bass, CHROMATIC_LAMENT));
  }

  private static boolean startsWith(List<Integer> bass, List<Integer> shape) {
    return bass.size() >= shape.size() && bass.subList(0, shape.size()).equals(shape);
  }

  private Finding finding(
      ChordPath path, int first, int last, boolean lament, int inverted, Pulse pulse) {
    Span span = path.span(first, last);
    List<ChordStep> steps = path.steps().subList(first, last + 1);
    String notes =
        String.join(" ", steps.stream().map(step -> step.chord().bass().toString()).toList());
    boolean falls = step(path, first) < 0;
    int needed = Math.max(settings.leastChords(), steps.size() - 1);
    String key = lament ? "summary.lament" : falls ? "summary.falls" : "summary.rises";
    FindingDraft draft =
        FindingDraft.of(Technique.STEPWISE_BASS_LINE, span)
            .bars(pulse.bars(span))
            .sure(Certainty.atLeast(needed, steps.stream().map(ChordStep::sureOfBass).toList()))
            .strength(0.2 + 0.1 * steps.size() + (lament ? 0.2 : 0))
            .group(notes)
            .says(key, notes, steps.size())
            .hear("hear", notes)
            .atLeast("chords", steps.size(), settings.leastChords(), "chords");
    if (!lament) {
      draft.atLeast("inverted", inverted, settings.leastInverted(), "chords");
    }
    steps.forEach(step -> draft.read(Facet.CHORDS, step.span(), step.chordText()));
    return draft.make();
  }
}
