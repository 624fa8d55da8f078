package undersong.bench.plant;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import undersong.bench.metrics.Calibration.Stated;
import undersong.technique.Technique;

/**
 * Fits how a finder's certainty becomes how often it is right: logistic regression on the log odds,
 * drawn towards leaving them as they are, so that few statements move little.
 */
final class CalibrationFit {
  private static final int STEPS = 2000;
  private static final double RATE = 0.05;

  /** Weighs as much as so many statements. */
  private static final double PRIOR = 3;

  private static final double NARROWEST = 0.2;
  private static final double SUREST = 0.995;

  private CalibrationFit() {}

  /** Rows of the program's own table. */
  static List<String> rows(Map<Technique, List<Stated>> stated) {
    List<String> rows = new ArrayList<>();
    stated.entrySet().stream()
        .sorted(Map.Entry.comparingByKey())
        .forEach(
            entry -> {
              double[] line = fit(entry.getValue());
              rows.add(
                  String.format(
                      Locale.ROOT, "%s %.2f %.2f", entry.getKey().id(), line[0], line[1]));
            });
    return rows;
  }

  /** Stretch and shift of the log odds. */
  static double[] fit(List<Stated> statements) {
    double stretch = 1;
    double shift = 0;
    double weight = statements.size() + PRIOR;
    for (int step = 0; step < STEPS; step++) {
      double towardsStretch = PRIOR * (1 - stretch);
      double towardsShift = PRIOR * (0 - shift) * 0.3;
      for (Stated one : statements) {
        double odds = logOdds(one.probability());
        double miss = one.right() - 1 / (1 + Math.exp(-(stretch * odds + shift)));
        towardsStretch += miss * odds;
        towardsShift += miss;
      }
      stretch = Math.max(NARROWEST, stretch + RATE * towardsStretch / weight);
      shift += RATE * towardsShift / weight;
    }
    return new double[] {stretch, shift};
  }

  private static double logOdds(double probability) {
    double within = Math.max(1 - SUREST, Math.min(SUREST, probability));
    return Math.log(within / (1 - within));
  }
}
