package undersong.technique;

import java.util.EnumMap;
import java.util.Map;

/**
 * Turns how sure a finder is into how often it is right: the log odds are stretched and moved, per
 * technique (Platt scaling on the logit; J. Platt, 1999, from memory). The figures are fitted on
 * songs whose techniques are known; a technique without figures keeps its finder's word.
 */
public final class Calibration {
  public static final Calibration NONE = new Calibration(Map.of());

  private static final TableFile FIGURES = new TableFile("/undersong/technique/calibration.txt");

  /** No finding is surer than this, and none is less sure than its opposite. */
  private static final double SUREST = 0.995;

  private final Map<Technique, Line> lines;

  private Calibration(Map<Technique, Line> lines) {
    this.lines = lines;
  }

  /** The log odds of a technique become {@code stretch * logOdds + shift}. */
  public record Line(double stretch, double shift) {
    public Line {
      if (!(stretch > 0 && Double.isFinite(stretch) && Double.isFinite(shift))) {
        throw new IllegalArgumentException(
            "Calibration (stretch %s, shift %s) needs a positive stretch and a number."
                .formatted(stretch, shift));
      }
    }
  }

  /**
   * The figures the program comes with: fitted by the bench on composed songs that no measurement
   * uses.
   */
  public static Calibration standard() {
    Map<Technique, Line> lines = new EnumMap<>(Technique.class);
    for (String line : FIGURES.lines()) {
      String[] words = line.split("\\s+", -1);
      lines.put(
          Technique.named(words[0]),
          new Line(Double.parseDouble(words[1]), Double.parseDouble(words[2])));
    }
    return of(lines);
  }

  public static Calibration of(Map<Technique, Line> lines) {
    return new Calibration(lines.isEmpty() ? Map.of() : new EnumMap<>(lines));
  }

  double probability(Technique technique, double said) {
    double within = Math.max(1 - SUREST, Math.min(SUREST, said));
    Line line = lines.get(technique);
    if (line == null) {
      return within;
    }
    double logOdds = Math.log(within / (1 - within));
    double moved = 1 / (1 + Math.exp(-(line.stretch() * logOdds + line.shift())));
    return Math.max(1 - SUREST, Math.min(SUREST, moved));
  }
}
