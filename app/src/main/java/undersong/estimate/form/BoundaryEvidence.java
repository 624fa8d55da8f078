package undersong.estimate.form;

import java.util.List;

/**
 * What speaks for a section beginning with each bar, as numbers about 0 to 1 that {@link
 * FormSettings} weigh ({@code undersong.bench.decode.FormFit} tries weights on tuning songs).
 *
 * <p>Beside the trained ear and a change of texture (checkerboard novelty, J. Foote 2000) stand the
 * starts and ends of repeats: where some other stretch begins to run alike, or stops (after J.
 * Serra and others, "Unsupervised Music Structure Annotation by Time Series Structure Features and
 * Segment Similarity", 2014; read from memory). Cost: O(bars squared).
 */
final class BoundaryEvidence {
  private static final int REACH = 4;

  private BoundaryEvidence() {}

  /**
   * {@code [bar][number]}: ear, change of texture, a repeat begins, a repeat ends.
   *
   * @param heard probability that a section begins with each bar; may be longer than the bars
   */
  static double[][] of(SelfSimilarity bars, double[] heard) {
    int size = bars.size();
    double[][] evidence = new double[size][];
    for (int bar = 0; bar < size; bar++) {
      double[] runs = runs(bars, bar);
      evidence[bar] = new double[] {heard[bar], contrast(bars, bar), runs[0], runs[1]};
    }
    return evidence;
  }

  /** What a section beginning with a bar is worth. */
  static double worth(double[] evidence, List<Double> weights) {
    double sum = 0;
    for (int i = 0; i < evidence.length; i++) {
      sum += weights.get(i) * evidence[i];
    }
    return sum;
  }

  /** How much more alike the bars on either side are among themselves than across. */
  private static double contrast(SelfSimilarity bars, int bar) {
    int reach = Math.min(REACH, Math.min(bar, bars.size() - bar));
    if (reach == 0) {
      return 0;
    }
    double within = 0;
    double across = 0;
    for (int i = 0; i < reach; i++) {
      for (int j = 0; j < reach; j++) {
        within += bars.textureAt(bar + i, bar + j) + bars.textureAt(bar - 1 - i, bar - 1 - j);
        across += 2 * bars.textureAt(bar + i, bar - 1 - j);
      }
    }
    return Math.max(0, (within - across) / (4.0 * reach * reach));
  }

  /** The clearest start and the clearest end of a likeness to bars some way off. */
  private static double[] runs(SelfSimilarity bars, int bar) {
    int size = bars.size();
    double begins = 0;
    double ends = 0;
    if (bar >= REACH && bar + REACH <= size) {
      for (int lag = -size; lag < size; lag++) {
        boolean inside = bar - REACH + lag >= 0 && bar + REACH + lag <= size;
        if (Math.abs(lag) >= REACH && inside) {
          double before = bars.alongside(bar - REACH, bar - REACH + lag, REACH, 0);
          double after = bars.alongside(bar, bar + lag, REACH, 0);
          begins = Math.max(begins, after - Math.max(0, before));
          ends = Math.max(ends, before - Math.max(0, after));
        }
      }
    }
    return new double[] {begins, ends};
  }
}
