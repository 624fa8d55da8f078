package undersong.bench.metrics;

import java.util.Arrays;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/** Largest one-to-one matching of references and estimates that are close enough. */
public final class Matching {
  private Matching() {}

  /** Whether a reference and an estimate may be matched. */
  @FunctionalInterface
  public interface Edge {
    boolean joins(int reference, int estimate);
  }

  /**
   * The estimate matched to each reference, -1 where none is; as many matches as possible.
   *
   * <p>Source: augmenting paths (H. W. Kuhn's method for bipartite graphs, 1955).
   */
  public static int[] maximum(int references, int estimates, Edge edge) {
    int[][] reachable = new int[references][];
    for (int r = 0; r < references; r++) {
      int reference = r;
      IntPredicate joined = e -> edge.joins(reference, e);
      reachable[r] = IntStream.range(0, estimates).filter(joined).toArray();
    }
    int[] referenceOf = new int[estimates];
    Arrays.fill(referenceOf, -1);
    for (int r = 0; r < references; r++) {
      augment(r, reachable, referenceOf, new boolean[estimates]);
    }
    int[] estimateOf = new int[references];
    Arrays.fill(estimateOf, -1);
    for (int e = 0; e < estimates; e++) {
      if (referenceOf[e] >= 0) {
        estimateOf[referenceOf[e]] = e;
      }
    }
    return estimateOf;
  }

  private static boolean augment(int r, int[][] reachable, int[] referenceOf, boolean[] seen) {
    for (int e : reachable[r]) {
      if (!seen[e]) {
        seen[e] = true;
        if (referenceOf[e] < 0 || augment(referenceOf[e], reachable, referenceOf, seen)) {
          referenceOf[e] = r;
          return true;
        }
      }
    }
    return false;
  }

  /** Number of matches between times no further apart than the window, the window included. */
  public static int within(double[] reference, double[] estimated, double windowSeconds) {
    int[] matched =
        maximum(
            reference.length,
            estimated.length,
            (r, e) -> Math.abs(reference[r] - estimated[e]) <= windowSeconds);
    return count(matched);
  }

  static int count(int[] matched) {
    return (int) Arrays.stream(matched).filter(e -> e >= 0).count();
  }

  /** Precision and recall of a largest matching. */
  public static PrecisionRecall score(int references, int estimates, Edge edge) {
    return PrecisionRecall.of(count(maximum(references, estimates, edge)), references, estimates);
  }

  /** Precision and recall of times within a window, the window included. */
  public static PrecisionRecall score(
      double[] reference, double[] estimated, double windowSeconds) {
    return PrecisionRecall.of(
        within(reference, estimated, windowSeconds), reference.length, estimated.length);
  }
}
