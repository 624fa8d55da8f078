package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import undersong.estimate.echo.RoomEvidence.Expected;
import undersong.reading.HearingBand;
import undersong.reading.Reverb;
import undersong.time.Span;

/**
 * Tells rooms by what was measured of them: puts right what the measure does to all of them alike,
 * and says how sure that is by how far it was off on tuning songs. A decay that is likelier wrong
 * than right is not told.
 */
public final class RoomTeller {
  /** A decay is right within a quarter. */
  private static final double RIGHT_OCTAVES = Math.log(1.25) / Math.log(2);

  private static final double RIGHT_DB = 4;

  private final Settings settings;

  /**
   * Found by {@code undersong.bench.decode.RoomFit} on tuning songs; {@link #HEARD} by nobody yet,
   * since no ear has that stage: to be fitted when one does.
   *
   * @param decayOffsets octaves added, band by band
   * @param decaySlope octaves told per octave measured, about one second
   * @param decayError standard error of a decay per octave of its spread
   * @param wetOffset decibels added
   * @param wetSlope decibels told per decibel measured
   * @param wetErrorDb standard error of the level
   * @param leastWetDb the driest section whose decay is told
   * @param least chance of being right from which a decay is told
   */
  public record Settings(
      List<Double> decayOffsets,
      double decaySlope,
      double decayError,
      double wetOffset,
      double wetSlope,
      double wetErrorDb,
      double leastWetDb,
      double least) {
    public static final Settings HEARD =
        new Settings(List.of(0.0, 0.0, 0.0, 0.0), 1, 1, 0, 1, 4, -27, 0.4);
    public static final Settings AMBIENT = new Settings(List.of(), 0, 1, -0.12, 1.03, 4.55, -33, 0);
  }

  public RoomTeller(Settings settings) {
    this.settings = settings;
  }

  /**
   * @return at most one room a section, without changes
   */
  public List<Reverb> told(List<Span> sections, List<Expected> measured) {
    List<Reverb> rooms = new ArrayList<>();
    for (int i = 0; i < sections.size(); i++) {
      if (!measured.get(i).isNothing()) {
        rooms.add(told(sections.get(i), measured.get(i)));
      }
    }
    return rooms;
  }

  private Reverb told(Span span, Expected measured) {
    double wet = settings.wetOffset + settings.wetSlope * measured.wetDb();
    Map<HearingBand, Double> decays = new EnumMap<>(HearingBand.class);
    double sure = 0;
    int told = 0;
    for (int b = 0; b < measured.decayOctaves().size(); b++) {
      double octaves =
          settings.decayOffsets.get(b) + settings.decaySlope * measured.decayOctaves().get(b);
      double right = within(RIGHT_OCTAVES, settings.decayError * measured.spreadOctaves().get(b));
      if (wet >= settings.leastWetDb && right >= settings.least) {
        decays.put(RoomEvidence.BANDS.get(b), rounded(Math.pow(2, octaves), 100));
        sure += right;
        told++;
      }
    }
    double levelRight = within(RIGHT_DB, settings.wetErrorDb);
    return new Reverb(
        span,
        HearingBand.numbers(decays),
        rounded(wet, 10),
        rounded(settings.wetSlope * measured.wanderDb(), 10),
        0,
        rounded(told == 0 ? levelRight : (levelRight + sure / told) / 2, 1000));
  }

  /**
   * Chance that a normal error stays within a limit, by the logistic curve that comes closest to
   * the normal distribution.
   */
  private static double within(double limit, double standardError) {
    return 2 / (1 + Math.exp(-1.702 * limit / Math.max(1e-3, standardError))) - 1;
  }

  private static double rounded(double value, double steps) {
    return Math.round(steps * value) / steps;
  }
}
