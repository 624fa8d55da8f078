package undersong.expectation;

import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;

/**
 * Counts of what followed in contexts of every length: a node per context, the nearest symbol
 * nearest the root. Grows while counting; read only afterwards.
 *
 * <p>Source: prediction by partial matching with escape method C (J. Cleary, I. Witten, 1984; A.
 * Moffat, 1990), interpolated as in M. Pearce, thesis, City University London, 2005 (from memory).
 */
final class ContextTree {
  private final Map<Integer, Integer> followed = new TreeMap<>();
  private final Map<Integer, ContextTree> longer = new TreeMap<>();

  /**
   * Counts a symbol in its context and in all shorter ones.
   *
   * @param context what went before, nearest first
   */
  void add(int symbol, int[] context, int longest) {
    ContextTree node = this;
    node.followed.merge(symbol, 1, Integer::sum);
    for (int i = 0; i < Math.min(longest, context.length); i++) {
      node = node.longer.computeIfAbsent(context[i], c -> new ContextTree());
      node.followed.merge(symbol, 1, Integer::sum);
    }
  }

  /** Adds another tree's counts, each at most {@code most} times. */
  void addAll(ContextTree other, int most) {
    other.followed.forEach((s, n) -> followed.merge(s, Math.min(n, most), Integer::sum));
    other.longer.forEach(
        (c, node) -> longer.computeIfAbsent(c, n -> new ContextTree()).addAll(node, most));
  }

  /**
   * Probabilities of the next symbol.
   *
   * @param base read: what is expected where nothing was counted, summing to 1
   * @return one probability a symbol, summing to 1; none is 0 unless it is in the base
   */
  double[] predict(int[] context, double[] base) {
    double[] mixed = base.clone();
    ContextTree node = this;
    for (int i = 0; ; i++) {
      node.mixInto(mixed);
      node = i < context.length ? node.longer.get(context[i]) : null;
      if (node == null) {
        return mixed;
      }
    }
  }

  private void mixInto(double[] shorter) {
    int total = followed.values().stream().mapToInt(n -> n).sum();
    if (total == 0) {
      return;
    }
    double escape = (double) followed.size() / (total + followed.size());
    for (int s = 0; s < shorter.length; s++) {
      shorter[s] =
          escape * shorter[s] + (1 - escape) * followed.getOrDefault(s, 0) / (double) total;
    }
  }

  static double[] uniform(int symbols) {
    double[] even = new double[symbols];
    Arrays.fill(even, 1.0 / symbols);
    return even;
  }
}
