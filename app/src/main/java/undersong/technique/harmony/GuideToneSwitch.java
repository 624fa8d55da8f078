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
import undersong.theory.ChordQuality;
import undersong.time.Span;

/**
 * Root and bass hold, one note moves by a semitone, and third or fifth are others: the quality
 * turns. Turns that follow each other over one root are one occurrence.
 */
final class GuideToneSwitch implements TechniqueFinder {
  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.GUIDE_TONE_SWITCH);
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
      int last = i;
      while (path.goesOn(last) && turns(path.get(last), path.get(last + 1))) {
        last++;
      }
      if (last > i) {
        findings.add(finding(path, i, last, pulse));
      }
      i = Math.max(last, i + 1);
    }
    return findings;
  }

  private static boolean turns(ChordStep one, ChordStep other) {
    ChordQuality before = one.chord().quality();
    ChordQuality after = other.chord().quality();
    boolean rootAndBassHold =
        one.chord().root().pitchClass() == other.chord().root().pitchClass()
            && one.chord().bass().pitchClass() == other.chord().bass().pitchClass();
    if (!rootAndBassHold || before.hasNoThird() || after.hasNoThird()) {
      return false;
    }
    boolean thirdMoves = before.hasMajorThird() != after.hasMajorThird();
    boolean fifthMoves = fifth(before) != fifth(after);
    return thirdMoves != fifthMoves && sevenths(before, after);
  }

  private static int fifth(ChordQuality quality) {
    return quality.contains(7) ? 7 : quality.contains(6) ? 6 : 8;
  }

  /** A seventh may join or leave; one that moves is a second voice. */
  private static boolean sevenths(ChordQuality before, ChordQuality after) {
    return seventh(before) == 0 || seventh(after) == 0 || seventh(before) == seventh(after);
  }

  private static int seventh(ChordQuality quality) {
    return quality.contains(10) ? 10 : quality.contains(11) ? 11 : 0;
  }

  private static Finding finding(ChordPath path, int first, int last, Pulse pulse) {
    ChordStep before = path.get(first);
    ChordStep after = path.get(first + 1);
    Span span = path.span(first, last);
    int turns = last - first;
    boolean third = before.major() != after.major();
    return FindingDraft.of(Technique.GUIDE_TONE_SWITCH, span)
        .bars(pulse.bars(span))
        .sure(before.sureOfTriad(), after.sureOfTriad())
        .strength(0.5 + 0.15 * turns)
        .group(before.numeralText() + " " + after.numeralText())
        .says(
            turns > 1 ? "summary.back" : "summary",
            before.chordText(),
            after.chordText(),
            moving(before, third),
            moving(after, third))
        .hear("hear", moving(before, third), moving(after, third))
        .read(Facet.CHORDS, before.span(), before.chordText())
        .read(Facet.CHORDS, after.span(), after.chordText())
        .make();
  }

  private static String moving(ChordStep step, boolean third) {
    int number = third ? 3 : 5;
    return step.chord().degrees().stream()
        .filter(degree -> degree.number() == number)
        .findFirst()
        .map(degree -> degree.above(step.chord().root()).toString())
        .orElse(step.chord().root().toString());
  }
}
