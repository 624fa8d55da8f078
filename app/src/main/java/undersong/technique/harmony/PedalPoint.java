package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.reading.Bass;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
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
import undersong.theory.ChordSymbol.Chord;
import undersong.time.Span;

/** One bass note under chords that change, to some of which it is foreign. */
final class PedalPoint implements TechniqueFinder {
  /** A bass note that sounds for this share of a chord is its bass. */
  private static final double SHARE = 0.4;

  private final Settings settings;

  PedalPoint(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param leastChanges of chord through which the bass holds
   * @param leastForeign chords that do not hold it
   */
  record Settings(int leastChanges, int leastForeign) {
    static final Settings DEFAULTS = new Settings(3, 1);
  }

  @Override
  public Set<Technique> techniques() {
    return Set.of(Technique.PEDAL_POINT);
  }

  @Override
  public Set<Facet<?>> reads() {
    return HarmonyFinders.with(Facet.BASS);
  }

  @Override
  public List<Finding> find(Reading reading) {
    Pulse pulse = Pulse.of(reading);
    List<SongSection> sections = SongSection.of(reading);
    ChordPath path = ChordPath.of(reading);
    Bass bass = reading.get(Facet.BASS);
    List<Integer> lowest = path.steps().stream().map(step -> lowest(step, bass)).toList();
    List<Finding> findings = new ArrayList<>();
    int i = 0;
    while (i < path.size()) {
      int last = i;
      while (path.goesOn(last) && lowest.get(last + 1).equals(lowest.get(i))) {
        last++;
      }
      List<ChordStep> steps = path.steps().subList(i, last + 1);
      int pitchClass = lowest.get(i);
      List<ChordStep> foreign =
          steps.stream().filter(step -> !holds(step.chord(), pitchClass)).toList();
      if (changes(steps) >= settings.leastChanges() && foreign.size() >= settings.leastForeign()) {
        findings.add(finding(path, i, last, foreign, pitchClass, sections, pulse));
      }
      i = last + 1;
    }
    return findings;
  }

  /** The pitch class the bass line holds longest under a chord; its written bass without one. */
  private static int lowest(ChordStep step, Bass bass) {
    double[] seconds = new double[12];
    for (NoteEvent note : bass.notes()) {
      seconds[note.pitchClass()] += note.span().overlapSeconds(step.span());
    }
    int most = step.chord().bass().pitchClass();
    for (int pitchClass = 0; pitchClass < 12; pitchClass++) {
      most = seconds[pitchClass] > seconds[most] + 1e-6 ? pitchClass : most;
    }
    boolean sounds = seconds[most] >= SHARE * step.span().lengthSeconds();
    return sounds ? most : step.chord().bass().pitchClass();
  }

  private static int changes(List<ChordStep> steps) {
    int changes = 0;
    for (int i = 1; i < steps.size(); i++) {
      changes += steps.get(i).chord().equals(steps.get(i - 1).chord()) ? 0 : 1;
    }
    return changes;
  }

  private static boolean holds(Chord chord, int pitchClass) {
    return chord.degrees().stream()
        .anyMatch(
            degree ->
                Math.floorMod(chord.root().pitchClass() + degree.semitones() - pitchClass, 12)
                    == 0);
  }

  private Finding finding(
      ChordPath path,
      int first,
      int last,
      List<ChordStep> foreign,
      int pitchClass,
      List<SongSection> sections,
      Pulse pulse) {
    Span span = path.span(first, last);
    List<ChordStep> steps = path.steps().subList(first, last + 1);
    String note = undersong.theory.Spelling.name(pitchClass, steps.get(0).key()).toString();
    List<Double> sure = steps.stream().map(ChordStep::sureOfRoot).toList();
    FindingDraft draft =
        FindingDraft.of(Technique.PEDAL_POINT, span)
            .bars(pulse.bars(span))
            .sure(
                Certainty.atLeast(settings.leastChanges() + 1, sure), foreign.get(0).sureOfTriad())
            .strength(0.3 + 0.1 * steps.size())
            .group(HarmonyFinders.letter(sections, span) + " " + note)
            .says("summary", note, HarmonyFinders.chords(steps), foreign.get(0).chordText())
            .hear("hear", note)
            .atLeast("changes", changes(steps), settings.leastChanges(), "")
            .atLeast("foreign", foreign.size(), settings.leastForeign(), "chords");
    steps.forEach(step -> draft.read(Facet.CHORDS, step.span(), step.chordText()));
    return draft.make();
  }
}
