package undersong.technique.plain;

import java.util.Optional;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Finding;
import undersong.technique.Technique;

/**
 * The bars of a finding as they would be without it: an early chord on its beat, a borrowed chord
 * as the one of the key. What a technique does is heard best beside what it is not.
 */
public final class PlainVersion {
  private PlainVersion() {}

  /**
   * The reading with the technique taken out of the finding's span; elsewhere it stays as it is.
   * Empty where the technique lies in what chords, bass and tune do not hold, or where taking it
   * away would change none of them.
   */
  public static Optional<Reading> of(Finding finding, Reading reading) {
    if (reading.find(Facet.CHORDS).isEmpty() || reading.find(Facet.BASS).isEmpty()) {
      return Optional.empty();
    }
    Reading plain = plain(finding, new PlainBars(reading, finding.span()));
    return plain.equals(reading) ? Optional.empty() : Optional.of(plain);
  }

  private static Reading plain(Finding finding, PlainBars bars) {
    return switch (finding.technique()) {
      case ANTICIPATED_CHANGES -> bars.chordsInPlace();
      case SYNCOPATED_BASS, THREE_THREE_TWO -> bars.bassOnTheBeat();
      case BORROWED_CHORD, SECONDARY_DOMINANT, SURPRISING_CHORD -> bars.inTheKey();
      case MODAL_COLOUR, HARMONIC_MINOR_DOMINANT -> bars.inPlainMajorOrMinor();
      case WITHHELD_THIRD -> bars.withThirds();
      case PEDAL_POINT, STEPWISE_BASS_LINE -> bars.rootsInTheBass();
      case CHROMATIC_INNER_LINE, GUIDE_TONE_SWITCH -> bars.eachRootWithOneChord();
      case DECEPTIVE_CADENCE, UNRESOLVED_ENDING -> bars.endingAtHome();
      case KEY_LIFT -> bars.unlifted();
      default -> bars.reading();
    };
  }

  /** Whether this technique can be taken out at all. */
  public static boolean knows(Technique technique) {
    return switch (technique) {
      case ANTICIPATED_CHANGES,
          SYNCOPATED_BASS,
          THREE_THREE_TWO,
          BORROWED_CHORD,
          SECONDARY_DOMINANT,
          SURPRISING_CHORD,
          MODAL_COLOUR,
          HARMONIC_MINOR_DOMINANT,
          WITHHELD_THIRD,
          PEDAL_POINT,
          STEPWISE_BASS_LINE,
          CHROMATIC_INNER_LINE,
          GUIDE_TONE_SWITCH,
          DECEPTIVE_CADENCE,
          UNRESOLVED_ENDING,
          KEY_LIFT ->
          true;
      default -> false;
    };
  }
}
