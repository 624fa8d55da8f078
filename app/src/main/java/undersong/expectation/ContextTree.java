package undersong.expectation;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/**
 * Counts of what followed in contexts of every length: a node per context, the nearest symbol
 * nearest the root. Grows while counting; read only afterwards.
 *
 * <p>Source: prediction by partial matching with escape method C (J. Cleary, I. Witten, 1984; A.
 * Moffat, 1990), interpolated as in M. Pearce, thesis, City University London, 2005 (from memory).
 */
final class ContextTree {
  private final Map<Integer, ContextTree> longer = new HashMap<>(2);
  private int[] symbols = new int[2];
  private int[] counts = new int[2];
  private int distinct;
  private int total;

  /**
   * Counts a symbol in its context and in all shorter ones.
   *
   * @param context what went before, nearest first
   */
  void add(int symbol, int[] context, int longest) {
    ContextTree node = this;
    node.add(symbol, 1);
    for (int i = 0; i < Math.min(longest, context.length); i++) {
      node = node.deeper(context[i]);
      node.add(symbol, 1);
    }
  }

  /** The node of a context one symbol longer, made where there is none. */
  ContextTree deeper(int symbol) {
    return longer.computeIfAbsent(symbol, s -> new ContextTree());
  }

  void add(int symbol, int times) {
    total += times;
    for (int i = 0; i < distinct; i++) {
      if (symbols[i] == symbol) {
        counts[i] += times;
        return;
      }
    }
    if (distinct == symbols.length) {
      symbols = Arrays.copyOf(symbols, 2 * distinct);
      counts = Arrays.copyOf(counts, 2 * distinct);
    }
    symbols[distinct] = symbol;
    counts[distinct++] = times;
  }

  /** Adds another tree's counts, each at most {@code most} times. */
  void addAll(ContextTree other, int most) {
    for (int i = 0; i < other.distinct; i++) {
      add(other.symbols[i], Math.min(other.counts[i], most));
    }
    other.longer.forEach((symbol, node) -> deeper(symbol).addAll(node, most));
  }

  /** Leaves out contexts of two symbols and more in which one thing followed once. */
  void prune() {
    longer.values().forEach(ContextTree::pruneLonger);
  }

  private void pruneLonger() {
    longer.values().removeIf(node -> node.total < 2);
    longer.values().forEach(ContextTree::pruneLonger);
  }

  Map<Integer, ContextTree> longer() {
    return longer;
  }

  /** Symbols and their counts. */
  Map<Integer, Integer> counted() {
    Map<Integer, Integer> counted = new HashMap<>();
    for (int i = 0; i < distinct; i++) {
      counted.put(symbols[i], counts[i]);
    }
    return counted;
  }

  /**
   * Probabilities of the next symbol: each longer context that was met corrects the shorter one.
   *
   * @param base read: what is expected where nothing was counted, summing to 1
   * @param novelty how readily a new symbol is expected in a known context: 1 = escape method C
   * @return one probability a symbol, summing to 1; none is 0 unless it is in the base
   */
  double[] predict(int[] context, double[] base, double novelty) {
    double[] odds = base.clone();
    ContextTree node = this;
    for (int i = 0; node != null; i++) {
      node.correct(odds, novelty);
      node = i < context.length ? node.longer.get(context[i]) : null;
    }
    return odds;
  }

  private void correct(double[] odds, double novelty) {
    if (total == 0) {
      return;
    }
    double weight = total + novelty * distinct;
    for (int s = 0; s < odds.length; s++) {
      odds[s] *= novelty * distinct / weight;
    }
    for (int i = 0; i < distinct; i++) {
      odds[symbols[i]] += counts[i] / weight;
    }
  }
}
