package undersong.technique.plain;

import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Finding;
import undersong.technique.Technique;

/**
 * The bars of a finding as they would be without it: an early chord on its beat, a borrowed chord
 * as the one of the key. What a technique does is heard best beside what it is not.
 */
public final class PlainVersion {
  private static final Map<Technique, Function<PlainBars, Reading>> WITHOUT =
      Map.ofEntries(
          Map.entry(Technique.ANTICIPATED_CHANGES, PlainBars::chordsInPlace),
          Map.entry(Technique.SYNCOPATED_BASS, PlainBars::bassOnTheBeat),
          Map.entry(Technique.THREE_THREE_TWO, PlainBars::bassOnTheBeat),
          Map.entry(Technique.BORROWED_CHORD, PlainBars::inTheKey),
          Map.entry(Technique.SECONDARY_DOMINANT, PlainBars::inTheKey),
          Map.entry(Technique.SURPRISING_CHORD, PlainBars::inTheKey),
          Map.entry(Technique.MODAL_COLOUR, PlainBars::inPlainMajorOrMinor),
          Map.entry(Technique.HARMONIC_MINOR_DOMINANT, PlainBars::inPlainMajorOrMinor),
          Map.entry(Technique.WITHHELD_THIRD, PlainBars::withThirds),
          Map.entry(Technique.PEDAL_POINT, PlainBars::rootsInTheBass),
          Map.entry(Technique.STEPWISE_BASS_LINE, PlainBars::rootsInTheBass),
          Map.entry(Technique.CHROMATIC_INNER_LINE, PlainBars::eachRootWithOneChord),
          Map.entry(Technique.GUIDE_TONE_SWITCH, PlainBars::eachRootWithOneChord),
          Map.entry(Technique.DECEPTIVE_CADENCE, PlainBars::endingAtHome),
          Map.entry(Technique.UNRESOLVED_ENDING, PlainBars::endingAtHome),
          Map.entry(Technique.KEY_LIFT, PlainBars::unlifted));

  private PlainVersion() {}

  /**
   * The reading with the technique taken out of the finding's span; elsewhere it stays as it is.
   * Empty where the technique lies in what chords, bass and tune do not hold, or where taking it
   * away would change none of them.
   */
  public static Optional<Reading> of(Finding finding, Reading reading) {
    if (!knows(finding.technique())
        || reading.find(Facet.CHORDS).isEmpty()
        || reading.find(Facet.BASS).isEmpty()) {
      return Optional.empty();
    }
    PlainBars bars = new PlainBars(reading, finding.span());
    return Optional.of(WITHOUT.get(finding.technique()).apply(bars))
        .filter(plain -> !plain.equals(reading));
  }

  /** Whether this technique can be taken out at all. */
  public static boolean knows(Technique technique) {
    return WITHOUT.containsKey(technique);
  }
}
