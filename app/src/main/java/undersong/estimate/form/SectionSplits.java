package undersong.estimate.form;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Splits a section whose beginning or end comes back by itself elsewhere: a verse and a chorus that
 * always follow each other look like one section until the chorus comes alone.
 */
final class SectionSplits {
  /** Likeness from which a part is the other section. */
  private static final double ALIKE = 0.5;

  /** How much less alike the other part must be. */
  private static final double CLEARER = 0.3;

  private static final int SHORTEST_BARS = 4;

  private SectionSplits() {}

  /**
   * @param starts first bars of the sections, rising
   * @param forbidden bars with which no section may begin
   * @param size bars that are music; those after them ring on
   * @return the same with those of the parts that come back by themselves
   */
  static List<Integer> split(
      SelfSimilarity bars, List<Integer> starts, Set<Integer> forbidden, int size) {
    List<Integer> split = new ArrayList<>(starts);
    int at = nextSplit(bars, split, forbidden, size);
    while (at >= 0) {
      split.add(at);
      split.sort(null);
      at = nextSplit(bars, split, forbidden, size);
    }
    return List.copyOf(split);
  }

  /** The bar at which the clearest part begins or ends; -1 where none is clear. */
  private static int nextSplit(
      SelfSimilarity bars, List<Integer> starts, Set<Integer> forbidden, int size) {
    int best = -1;
    double clearest = 0;
    for (int whole = 0; whole < starts.size(); whole++) {
      for (int part = 0; part < starts.size(); part++) {
        int from = starts.get(whole);
        int to = end(starts, whole, size);
        int length = end(starts, part, size) - starts.get(part);
        boolean fits = length >= SHORTEST_BARS && to - from - length >= SHORTEST_BARS;
        if (part == whole || !fits) {
          continue;
        }
        double first = likeness(bars, starts.get(part), from, length);
        double last = likeness(bars, starts.get(part), to - length, length);
        int at = first > last ? from + length : to - length;
        double clear = Math.abs(first - last);
        if (Math.max(first, last) >= ALIKE
            && clear >= CLEARER
            && clear > clearest
            && !forbidden.contains(at)) {
          best = at;
          clearest = clear;
        }
      }
    }
    return best;
  }

  private static double likeness(SelfSimilarity bars, int one, int other, int length) {
    double best = Double.NEGATIVE_INFINITY;
    for (int lift : SelfSimilarity.LIFTS) {
      double penalty = lift == 0 ? 0 : SelfSimilarity.LIFT_PENALTY;
      best = Math.max(best, bars.alongside(one, other, length, lift) - penalty);
    }
    return best;
  }

  private static int end(List<Integer> starts, int section, int size) {
    return section + 1 < starts.size() ? starts.get(section + 1) : size;
  }
}
