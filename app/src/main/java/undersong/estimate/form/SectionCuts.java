package undersong.estimate.form;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Set;

/**
 * Cuts a song into sections at bar lines by dynamic programming over the self-similarity of its
 * bars: a section is worth what speaks for its beginning, worth being a copy of other music as a
 * whole, and costs a fixed amount; lengths of 4, 8 and 16 bars are likelier than others.
 *
 * <p>Idea: block matching on bar-wise self-similarity (A. Marmoret, J. Cohen, F. Bimbot, "Barwise
 * Music Structure Analysis with the Correlation Block-Matching Segmentation Algorithm", 2023; read
 * from memory), with {@link BoundaryEvidence} for boundaries and a repetition term of our own.
 */
final class SectionCuts {
  private static final double FORCED = 1e6;

  /** Beyond this many bars lifted copies are not looked for when cutting: it would take minutes. */
  private static final int MOST_BARS_LIFTED = 400;

  private final SelfSimilarity bars;
  private final FormSettings settings;
  private final double[] speaks;

  /**
   * @param evidence read: what speaks for a boundary, bar by bar
   */
  SectionCuts(SelfSimilarity bars, FormSettings settings, double[][] evidence) {
    this.bars = bars;
    this.settings = settings;
    speaks = new double[bars.size()];
    for (int bar = 0; bar < speaks.length; bar++) {
      speaks[bar] = BoundaryEvidence.worth(evidence[bar], settings.boundaryWeights());
    }
  }

  /**
   * @param forced bars that begin a section
   * @param forbidden bars that do not
   * @param size bars that are cut; those after them ring on
   * @return first bars of the sections, rising, the first 0
   */
  List<Integer> cut(Set<Integer> forced, Set<Integer> forbidden, int size) {
    double[] best = new double[size + 1];
    int[] from = new int[size + 1];
    Arrays.fill(best, Double.NEGATIVE_INFINITY);
    best[0] = 0;
    double[][] repetition = repetition();
    for (int end = 1; end <= size; end++) {
      for (int length = 1; length <= Math.min(settings.longestBars(), end); length++) {
        int start = end - length;
        double boundary = start == 0 ? 0 : speaks[start];
        double pin = forced.contains(start) ? FORCED : forbidden.contains(start) ? -FORCED : 0;
        double worth =
            boundary
                + pin
                + settings.repetitionWeight() * length * repetition[start][length]
                + settings.lengthWeight() * lengthPreference(length)
                - settings.sectionCost();
        if (best[start] + worth > best[end]) {
          best[end] = best[start] + worth;
          from[end] = start;
        }
      }
    }
    List<Integer> starts = new ArrayList<>();
    for (int end = size; end > 0; end = from[end]) {
      starts.add(from[end]);
    }
    Collections.reverse(starts);
    return starts;
  }

  /** Preference for a length in bars: common practice, no source. */
  static double lengthPreference(int bars) {
    if (bars % 8 == 0) {
      return bars <= 16 ? 2.0 : 1.0;
    }
    if (bars % 4 == 0) {
      return 1.4;
    }
    return bars % 2 == 0 ? 0.4 : bars < 4 ? -1.5 : 0;
  }

  /** For every start and length: likeness to the best other stretch of that length, 0 to 1. */
  private double[][] repetition() {
    int size = bars.size();
    double[][] best = new double[size][Math.min(settings.longestBars(), size) + 1];
    for (int lift : size <= MOST_BARS_LIFTED ? SelfSimilarity.LIFTS : new int[] {0}) {
      for (int lag = 1; lag < size; lag++) {
        addRepetition(lag, lift, best);
      }
    }
    return best;
  }

  private void addRepetition(int lag, int lift, double[][] best) {
    double penalty = lift == 0 ? 0 : SelfSimilarity.LIFT_PENALTY;
    for (int start = 0; start + lag < bars.size(); start++) {
      double sum = 0;
      int most = Math.min(Math.min(settings.longestBars(), lag), bars.size() - start - lag);
      for (int length = 1; length <= most; length++) {
        sum += bars.lifted(start + length - 1, start + lag + length - 1, lift);
        double mean = sum / length - penalty;
        best[start][length] = Math.max(best[start][length], mean);
        best[start + lag][length] = Math.max(best[start + lag][length], mean);
      }
    }
  }
}
