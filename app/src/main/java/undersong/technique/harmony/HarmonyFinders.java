package undersong.technique.harmony;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import undersong.expectation.ChordExpectation;
import undersong.expectation.ExpectationCounts;
import undersong.expectation.ExpectationSettings;
import undersong.reading.Facet;
import undersong.technique.ChordStep;
import undersong.technique.SongSection;
import undersong.technique.TechniqueFinder;
import undersong.time.Span;

/** Every finder of this family, and what they share. */
public final class HarmonyFinders {
  /** What most of them read. */
  static final Set<Facet<?>> CHORDS_IN_SECTIONS =
      Set.of(Facet.BEATS, Facet.METER, Facet.CHORDS, Facet.HARMONY, Facet.FORM, Facet.ROLES);

  private HarmonyFinders() {}

  /** For someone who knows the charts that come with the program. */
  public static List<TechniqueFinder> all() {
    return all(ExpectationCounts.ofCharts());
  }

  /**
   * For someone who knows other songs too.
   *
   * @param heardBefore what chords are expected by
   */
  public static List<TechniqueFinder> all(ExpectationCounts heardBefore) {
    return List.of(
        new HarmonicMinorDominant(),
        new BorrowedChord(),
        new SecondaryDominant(),
        new GuideToneSwitch(),
        new ChromaticInnerLine(),
        new ModalColour(),
        new WithheldThird(WithheldThird.Settings.DEFAULTS),
        new SettledLater(SettledLater.Settings.DEFAULTS),
        new StepwiseBassLine(StepwiseBassLine.Settings.DEFAULTS),
        new PedalPoint(PedalPoint.Settings.DEFAULTS),
        new ChordLoop(ChordLoop.Settings.DEFAULTS),
        new TensionTone(TensionTone.Settings.DEFAULTS),
        new ReinterpretedTone(ReinterpretedTone.Settings.DEFAULTS),
        new Cadences(Cadences.Settings.DEFAULTS),
        new PlagalChain(),
        new UnresolvedEnding(),
        new KeyLift(KeyLift.Settings.DEFAULTS),
        new Modulation(Modulation.Settings.DEFAULTS),
        new AgainstExpectation(new ChordExpectation(heardBefore, ExpectationSettings.DEFAULTS)));
  }

  static Set<Facet<?>> with(Facet<?>... more) {
    Set<Facet<?>> all = new HashSet<>(CHORDS_IN_SECTIONS);
    all.addAll(List.of(more));
    return Set.copyOf(all);
  }

  /** Letter of the section most of a span lies in; "-" outside all sections. */
  static String letter(List<SongSection> sections, Span span) {
    return SongSection.at(sections, span).map(SongSection::letter).orElse("-");
  }

  /** That at least one of these triads is as it is called: enough to make the point. */
  static double anyTriad(List<ChordStep> steps) {
    return steps.stream().mapToDouble(ChordStep::sureOfTriad).max().orElse(0);
  }

  static String chords(List<ChordStep> steps) {
    return steps.stream().map(ChordStep::chordText).collect(Collectors.joining(" "));
  }

  static String numerals(List<ChordStep> steps) {
    return steps.stream().map(ChordStep::numeralText).collect(Collectors.joining(" "));
  }
}
