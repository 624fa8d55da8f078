package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import undersong.reading.Gesture;
import undersong.time.Span;

/**
 * A filter over nearly everything: shut, it leaves the highs tens of decibels below what any
 * playing does, and they come back, or go, steadily, while the notes below stay as loud.
 */
final class FilterFinder {
  private static final double BOTTOM_HZ = 200;
  private static final double LOW_HZ = 1000;
  private static final double BRIGHT_HZ = 2500;
  private static final double AIR_HZ = 5000;

  /** Highs of a shut filter lie this far below the lows; those of soft playing do not. */
  private static final double SHUT_DB = -35;

  private static final int SHORTEST_STEPS = 8;
  private static final int LONGEST_STEPS = 48;
  private static final double LEAST_DB = 20;
  private static final double LARGEST_STEP = 0.5;
  private static final double LARGEST_LOW_DB = 15;
  private static final double AUDIBLE_DB = -46;
  private static final double LEAST_STEADINESS = 0.9;
  private static final double LEAST_SURE = 0.7;
  private static final double SURER_PER_DB = 0.01;
  private static final double MOST_SURE = 0.95;

  private FilterFinder() {}

  /**
   * The longest that do not overlap.
   *
   * @param held power of each bin within each step, between strokes
   */
  static List<Gesture> filters(double[][] held, double[] times) {
    double[] low = decibels(held, BOTTOM_HZ, LOW_HZ);
    double[] bright = decibels(held, BRIGHT_HZ, AIR_HZ);
    double[] air = decibels(held, AIR_HZ, Double.POSITIVE_INFINITY);
    List<Gesture> found = new ArrayList<>();
    for (int from = 0; from + SHORTEST_STEPS <= held.length; from++) {
      int longest = Math.min(LONGEST_STEPS, held.length - from);
      for (int length = SHORTEST_STEPS; length <= longest; length++) {
        double moved = change(bright, from, length);
        double sign = Math.signum(moved);
        if (moved * sign >= LEAST_DB
            && !GestureFinder.ringsOut(moved, from + length, held.length)
            && change(air, from, length) * sign >= LEAST_DB
            && tilt(bright, low, sign > 0 ? from : from + length - 2) <= SHUT_DB
            && Math.abs(change(low, from, length)) <= LARGEST_LOW_DB
            && Math.min(first(low, from), first(low, from + length - 2)) >= AUDIBLE_DB
            && largestStep(bright, from, length) <= LARGEST_STEP * moved * sign
            && steadiness(bright, from, length) * sign >= LEAST_STEADINESS
            && steadiness(air, from, length) * sign >= LEAST_STEADINESS) {
          found.add(told(held, times, from, length, moved, steadiness(bright, from, length)));
        }
      }
    }
    found.sort(
        Comparator.comparingDouble((Gesture g) -> -g.span().lengthSeconds())
            .thenComparingDouble(g -> g.span().startSeconds()));
    List<Gesture> longest = new ArrayList<>();
    for (Gesture gesture : found) {
      if (longest.stream().noneMatch(other -> other.span().overlaps(gesture.span()))) {
        longest.add(gesture);
      }
    }
    return longest;
  }

  private static Gesture told(
      double[][] held, double[] times, int from, int length, double moved, double steadiness) {
    double octaves =
        GestureFinder.rollOff(held[from + length - 1]) - GestureFinder.rollOff(held[from]);
    double level =
        10
            * Math.log10(
                (GestureFinder.sum(held[from + length - 1], 0) + 1e-12)
                    / (GestureFinder.sum(held[from], 0) + 1e-12));
    // The roll-off of a sound that has hardly any highs moves less than the filter does.
    double least = Math.signum(moved) * Math.abs(moved) / 12;
    return new Gesture(
        moved > 0 ? Gesture.Kind.OPENING : Gesture.Kind.CLOSING,
        new Span(times[from], times[from + length]),
        GestureFinder.rounded(moved > 0 ? Math.max(least, octaves) : Math.min(least, octaves)),
        GestureFinder.rounded(level),
        GestureFinder.rounded(steadiness),
        Math.min(MOST_SURE, LEAST_SURE + SURER_PER_DB * (Math.abs(moved) - LEAST_DB)));
  }

  private static double[] decibels(double[][] held, double fromHz, double toHz) {
    return Arrays.stream(held)
        .mapToDouble(
            step -> {
              double above = toHz < 20_000 ? GestureFinder.sum(step, toHz) : 0;
              return 10 * Math.log10(Math.max(0, GestureFinder.sum(step, fromHz) - above) + 1e-12);
            })
        .toArray();
  }

  private static double first(double[] values, int at) {
    return (values[at] + values[at + 1]) / 2;
  }

  /** Parts that leave or enter change the highs at once; a filter takes its time. */
  private static double largestStep(double[] values, int from, int length) {
    double largest = 0;
    for (int i = from + 1; i < from + length; i++) {
      largest = Math.max(largest, Math.abs(values[i] - values[i - 1]));
    }
    return largest;
  }

  private static double tilt(double[] bright, double[] low, int at) {
    return first(bright, at) - first(low, at);
  }

  private static double change(double[] values, int from, int length) {
    return first(values, from + length - 2) - first(values, from);
  }

  private static double steadiness(double[] values, int from, int length) {
    return GestureFinder.spearman(Arrays.copyOfRange(values, from, from + length));
  }
}
