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

/** In minor, the chord on 5 with a major third, or the diminished chord on the raised 7. */
final class HarmonicMinorDominant implements TechniqueFinder {
  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.HARMONIC_MINOR_DOMINANT);
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
      ChordStep step = path.get(i);
      boolean sameAsBefore = i > 0 && path.goesOn(i - 1) && raised(path.get(i - 1));
      if (raised(step) && !sameAsBefore) {
        findings.add(finding(path, i, pulse));
      }
    }
    return findings;
  }

  private static boolean raised(ChordStep step) {
    return step.key().mode().hasMinorThird() && step.dominant();
  }

  private static Finding finding(ChordPath path, int first, Pulse pulse) {
    int last = first;
    while (path.goesOn(last) && raised(path.get(last + 1))) {
      last++;
    }
    ChordStep step = path.get(first);
    boolean goesHome = path.goesOn(last) && path.get(last + 1).root() == 0;
    String leadingTone = step.key().degreeOfStep(6).above(step.key().tonic()).toString();
    String raisedTone = new undersong.theory.ScaleDegree(7, 0).above(step.key().tonic()).toString();
    return FindingDraft.of(Technique.HARMONIC_MINOR_DOMINANT, path.span(first, last))
        .bars(pulse.bars(path.span(first, last)))
        .sure(step.sureOfTriad(), step.keyProbability())
        .strength(goesHome ? 0.6 : 0.4)
        .group(step.key().tonic().toString())
        .says(
            goesHome ? "summary.home" : "summary", step.chordText(), step.numeralText(), raisedTone)
        .hear("hear", raisedTone, leadingTone)
        .read(Facet.HARMONY, step.span(), step.numeralText())
        .make();
  }
}
