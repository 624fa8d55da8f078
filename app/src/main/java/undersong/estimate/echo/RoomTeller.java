package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import undersong.estimate.echo.RoomEvidence.Measured;
import undersong.reading.HearingBand;
import undersong.reading.Reverb;
import undersong.time.Span;

/**
 * Tells rooms by what was measured of them: puts right what the measures do to all of them alike,
 * and says how sure that is by how far it was off on tuning songs. Of dry sections no decay is
 * told.
 */
public final class RoomTeller {
  /** A decay is right within a quarter. */
  private static final double RIGHT_OCTAVES = Math.log(1.25) / Math.log(2);

  private static final double RIGHT_DB = 4;

  private final Settings settings;

  /**
   * Found by {@code undersong.bench.decode.RoomFit} on {@code own-room-01} to {@code 10} and two
   * other sets; ten more songs were heard afterwards and gave nothing better.
   *
   * @param decayOffsets octaves added, band by band
   * @param decaySlope octaves told per octave measured, about one second
   * @param decayError standard error of a decay per octave of its spread
   * @param level decibels added, then those told per decibel of what stands nowhere and per decibel
   *     of what lags behind
   * @param levelErrorDb standard error of the level
   * @param leastLevelDb the driest section whose decay is told
   * @param least chance of being right from which a decay is told; 0: whatever it is
   */
  public record Settings(
      List<Double> decayOffsets,
      double decaySlope,
      double decayError,
      List<Double> level,
      double levelErrorDb,
      double leastLevelDb,
      double least) {
    public static final Settings STANDARD =
        new Settings(
            List.of(0.16, 0.2, 0.04, -0.41), 1.93, 0.7, List.of(6.54, 0.46, 0.73), 3.48, -18, 0);

    public Settings {
      decayOffsets = List.copyOf(decayOffsets);
      level = List.copyOf(level);
    }
  }

  public RoomTeller(Settings settings) {
    this.settings = settings;
  }

  /**
   * @return at most one room a section, without changes
   */
  public List<Reverb> told(List<Span> sections, List<Measured> measured) {
    List<Reverb> rooms = new ArrayList<>();
    for (int i = 0; i < sections.size(); i++) {
      if (!measured.get(i).isNothing()) {
        rooms.add(told(sections.get(i), measured.get(i)));
      }
    }
    return rooms;
  }

  private Reverb told(Span span, Measured measured) {
    double level =
        settings.level.get(0)
            + settings.level.get(1) * measured.ambientDb()
            + settings.level.get(2) * measured.lagDb();
    Map<HearingBand, Double> decays = new EnumMap<>(HearingBand.class);
    double sure = 0;
    for (int b = 0; b < RoomEvidence.BANDS.size(); b++) {
      double octaves =
          settings.decayOffsets.get(b) + settings.decaySlope * measured.decayOctaves().get(b);
      double right = within(RIGHT_OCTAVES, settings.decayError * measured.spreadOctaves().get(b));
      if (level >= settings.leastLevelDb && right >= settings.least) {
        decays.put(RoomEvidence.BANDS.get(b), rounded(Math.pow(2, octaves), 100));
        sure += right;
      }
    }
    double levelRight = within(RIGHT_DB, settings.levelErrorDb);
    return new Reverb(
        span,
        HearingBand.numbers(decays),
        rounded(level, 10),
        rounded(measured.wanderDb(), 10),
        0,
        rounded(decays.isEmpty() ? levelRight : (levelRight + sure / decays.size()) / 2, 1000));
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
