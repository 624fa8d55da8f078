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
import undersong.theory.NoteName;
import undersong.time.Span;

/** A chord that acts as dominant of one that follows within two. */
final class SecondaryDominant implements TechniqueFinder {
  private static final int TARGET_WITHIN = 2;

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.SECONDARY_DOMINANT);
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
    for (int i = 0; i < path.size(); i++) {
      int target = path.get(i).applied() ? target(path, i) : -1;
      boolean repeatsTheOneBefore =
          i > 0
              && path.get(i - 1).applied()
              && path.get(i - 1).numeral().appliedTo().equals(path.get(i).numeral().appliedTo());
      if (target > 0 && !repeatsTheOneBefore) {
        findings.add(finding(path, i, target, pulse));
      }
    }
    return findings;
  }

  private static int target(ChordPath path, int i) {
    ChordStep step = path.get(i);
    int wanted = step.numeral().appliedTo().orElseThrow().semitones();
    for (int t = i + 1, left = TARGET_WITHIN; t < path.size() && left > 0; t++, left--) {
      if (!path.goesOn(t - 1)) {
        return -1;
      }
      if (path.get(t).root() == wanted) {
        return t;
      }
    }
    return -1;
  }

  private static Finding finding(ChordPath path, int i, int target, Pulse pulse) {
    ChordStep step = path.get(i);
    ChordStep goal = path.get(target);
    NoteName leading = leadingTone(step, goal);
    // The goal counts as far as its first bar: what must be heard is that it comes.
    double end =
        Math.min(
            goal.span().endSeconds(),
            pulse.isThere()
                ? pulse
                    .grid()
                    .secondsAtPosition(
                        pulse.grid().positionAt(goal.span().startSeconds()) + pulse.beatsPerBar())
                : goal.span().endSeconds());
    Span span = new Span(step.span().startSeconds(), end);
    return FindingDraft.of(Technique.SECONDARY_DOMINANT, span)
        .bars(pulse.bars(span))
        .sure(step.sureOfTriad(), goal.sureOfRoot(), step.keyProbability())
        .strength(step.chord().quality().contains(10) ? 0.6 : 0.5)
        .group(step.numeralText())
        .says("summary", step.chordText(), step.numeralText(), goal.chordText())
        .hear(step.span(), "hear", leading.toString(), goal.chordText())
        .read(Facet.HARMONY, step.span(), step.numeralText())
        .read(Facet.HARMONY, goal.span(), goal.numeralText())
        .make();
  }

  private static NoteName leadingTone(ChordStep step, ChordStep goal) {
    return step.chord().tones().stream()
        .filter(
            tone -> Math.floorMod(goal.chord().root().pitchClass() - tone.pitchClass(), 12) == 1)
        .findFirst()
        .orElse(step.chord().root());
  }
}
