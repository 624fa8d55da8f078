package undersong.estimate.echo;

import java.util.List;
import undersong.feature.Features;
import undersong.reading.HearingBand;
import undersong.time.Span;

/**
 * What is measured of the room, section by section.
 *
 * <p><b>Silence:</b> {@link Expected#NOTHING}.
 */
public interface RoomEvidence {
  /** The bands whose decay is measured; in the others too little sounds. */
  List<HearingBand> BANDS =
      List.of(HearingBand.LOW, HearingBand.LOW_MIDDLE, HearingBand.MIDDLE, HearingBand.HIGH_MIDDLE);

  /**
   * One section.
   *
   * @param decayOctaves of each of {@link #BANDS}, above one second; empty where they are not known
   * @param spreadOctaves how far they may be off, up to a factor that is the same for all
   * @param wetDb level of the reverberant sound against the direct sound; NaN where nothing is
   *     known
   * @param wanderDb standard deviation of that level from moment to moment
   */
  record Expected(
      List<Double> decayOctaves, List<Double> spreadOctaves, double wetDb, double wanderDb) {
    public static final Expected NOTHING = new Expected(List.of(), List.of(), Double.NaN, 0);

    public Expected {
      decayOctaves = List.copyOf(decayOctaves);
      spreadOctaves = List.copyOf(spreadOctaves);
    }

    public boolean isNothing() {
      return Double.isNaN(wetDb);
    }
  }

  /**
   * @param sections in order; the whole recording where there is no form
   * @return one entry a section
   */
  List<Expected> of(Features features, List<Span> sections);
}
