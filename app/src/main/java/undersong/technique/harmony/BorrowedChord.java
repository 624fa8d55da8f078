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
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.theory.Key;

/**
 * Triads of the parallel mode while the tonic stays: in major those of minor, in minor the major
 * chord on 1 unless it leads to 4. Neighbors of the kind are one occurrence.
 */
final class BorrowedChord implements TechniqueFinder {
  /**
   * Where the tonic itself sounds in the other mode for this share of its time, the key's mode is
   * not what it is called, and nothing is borrowed.
   */
  private static final double MODE_IN_DOUBT = 0.3;

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.BORROWED_CHORD);
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
    while (i < path.size()) {
      if (!borrowed(path, i)) {
        i++;
        continue;
      }
      int last = i;
      while (path.goesOn(last) && borrowed(path, last + 1)) {
        last++;
      }
      if (sameTonicAround(path, i, last) && !modeInDoubt(path, path.get(i).key())) {
        findings.add(finding(path, i, last, pulse));
      }
      i = last + 1;
    }
    return findings;
  }

  private static boolean borrowed(ChordPath path, int i) {
    ChordStep step = path.get(i);
    if (!step.event().borrowed() || step.applied()) {
      return false;
    }
    if (step.key().mode().hasMinorThird()) {
      boolean leadsToFour = path.goesOn(i) && path.get(i + 1).root() == 5;
      return step.root() == 0 && step.major() && !leadsToFour;
    }
    return true;
  }

  private static boolean sameTonicAround(ChordPath path, int first, int last) {
    Key key = path.get(first).key();
    boolean before = first > 0 && path.get(first - 1).key().tonic().equals(key.tonic());
    boolean after = last + 1 < path.size() && path.get(last + 1).key().tonic().equals(key.tonic());
    return before && (after || last + 1 == path.size());
  }

  private static boolean modeInDoubt(ChordPath path, Key key) {
    double all = 0;
    double other = 0;
    for (ChordStep step : path.steps()) {
      if (step.key().equals(key) && step.tonic() && !step.chord().quality().hasNoThird()) {
        all += step.span().lengthSeconds();
        boolean otherMode = step.minor() != key.mode().hasMinorThird();
        other += otherMode ? step.span().lengthSeconds() : 0;
      }
    }
    return other > MODE_IN_DOUBT * all;
  }

  private static Finding finding(ChordPath path, int first, int last, Pulse pulse) {
    ChordStep step = path.get(first);
    boolean toMinor = !step.key().mode().hasMinorThird();
    List<ChordStep> steps = path.steps().subList(first, last + 1);
    String names = HarmonyFinders.chords(steps);
    String numerals = HarmonyFinders.numerals(steps);
    // The chord on b7 is everyday in rock; those on b6, b3 and the minor chord on 4 are not.
    boolean everyday = steps.stream().allMatch(s -> s.root() == 10);
    FindingDraft draft =
        FindingDraft.of(Technique.BORROWED_CHORD, path.span(first, last))
            .bars(pulse.bars(path.span(first, last)))
            .sure(HarmonyFinders.anyTriad(steps), step.keyProbability())
            .strength(everyday ? 0.15 : 0.6)
            .group(numerals)
            .says(toMinor ? "summary.minor" : "summary.major", names, numerals)
            .hear(toMinor ? "hear.minor" : "hear.major");
    steps.forEach(s -> draft.read(Facet.HARMONY, s.span(), s.numeralText()));
    return draft.make();
  }
}
