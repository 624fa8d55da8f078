package undersong.bench.metrics;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;

/**
 * Whether stated probabilities come true: of those said with 0.8, 80 % should be right. Ten bins of
 * equal weight; equal probabilities stay in one bin, so that their order cannot matter.
 *
 * @param expectedError mean distance of stated and observed over the bins; NaN of nothing
 * @param byChance the error that perfectly honest statements of the same probabilities would show:
 *     a bin of few statements never comes out even; 0 in results of older runs
 * @param bins from the least to the most sure
 */
public record Calibration(double expectedError, double byChance, List<Bin> bins) {
  private static final int BINS = 10;
  private static final int DRAWS = 200;

  public Calibration {
    bins = List.copyOf(bins);
  }

  /**
   * One statement and whether it was right.
   *
   * @param right share of it that was right, 0 to 1
   * @param weight seconds for spans, 1 for events
   */
  public record Stated(double probability, double right, double weight) {}

  /**
   * @param stated mean stated probability
   * @param observed share that was right
   */
  public record Bin(double stated, double observed, double weight) {}

  public static Calibration of(List<Stated> statements) {
    Calibration of = binned(statements);
    Random dice = new Random(1);
    double sum = 0;
    for (int draw = 0; draw < DRAWS; draw++) {
      List<Stated> honest = new ArrayList<>();
      for (Stated s : statements) {
        int right = dice.nextDouble() < s.probability() ? 1 : 0;
        honest.add(new Stated(s.probability(), right, s.weight()));
      }
      sum += binned(honest).expectedError();
    }
    return new Calibration(of.expectedError(), sum / DRAWS, of.bins());
  }

  private static Calibration binned(List<Stated> statements) {
    List<Stated> sorted =
        statements.stream()
            .filter(s -> s.weight() > 0)
            .sorted(Comparator.comparingDouble(Stated::probability))
            .toList();
    double all = sorted.stream().mapToDouble(Stated::weight).sum();
    if (all == 0) {
      return new Calibration(Double.NaN, Double.NaN, List.of());
    }
    List<Bin> bins = new ArrayList<>();
    double error = 0;
    double before = 0;
    int next = 0;
    for (int b = 1; b <= BINS && next < sorted.size(); b++) {
      double stated = 0;
      double right = 0;
      double weight = 0;
      double lastProbability = Double.NaN;
      while (next < sorted.size()
          && (b == BINS
              || before + weight < all * b / BINS - 1e-9
              || sorted.get(next).probability() == lastProbability)) {
        Stated one = sorted.get(next++);
        lastProbability = one.probability();
        stated += one.weight() * one.probability();
        right += one.weight() * one.right();
        weight += one.weight();
      }
      before += weight;
      if (weight > 0) {
        bins.add(new Bin(stated / weight, right / weight, weight));
        error += Math.abs(stated - right);
      }
    }
    return new Calibration(error / all, Double.NaN, bins);
  }
}
