package undersong.estimate.meter;

import java.util.Arrays;
import java.util.Set;

/**
 * A chain of bars over beats: a hidden Markov model whose states are places in bars of several
 * lengths. Bars follow on bars; a bar cut short or a change of length has a price, so that bar
 * lines hold through passages that say little or contradict.
 *
 * <p>Source of the idea: N. Whiteley, A. T. Cemgil, S. Godsill, "Bayesian modelling of temporal
 * structure in musical audio", ISMIR 2006 (from memory). Departs from it: over beats already
 * tracked, not over frames. Cost O(beats * states).
 */
final class BarChain {
  private static final double NEVER = -1e9;

  private final int[] lengths;
  private final int[] firstState;
  private final int states;
  private final double cutCost;
  private final double changeCost;
  private final Set<Integer> freeBeats;

  /**
   * @param lengths beats of the bars that may occur
   * @param cutCost price of a bar cut short
   * @param changeCost price of a change of length
   * @param freeBeats where bars may be cut and change their length for nothing
   */
  BarChain(int[] lengths, double cutCost, double changeCost, Set<Integer> freeBeats) {
    this.lengths = lengths.clone();
    this.cutCost = cutCost;
    this.changeCost = changeCost;
    this.freeBeats = Set.copyOf(freeBeats);
    firstState = new int[lengths.length + 1];
    for (int i = 0; i < lengths.length; i++) {
      firstState[i + 1] = firstState[i] + lengths[i];
    }
    states = firstState[lengths.length];
  }

  /** Index of the length that a state belongs to. */
  private int family(int state) {
    int family = 0;
    while (firstState[family + 1] <= state) {
      family++;
    }
    return family;
  }

  /** One state a beat: which length of bar, and which place in it. */
  record Place(int lengthIndex, int beatInBar) {}

  /**
   * The likeliest chain.
   *
   * @param worth read: worth[beat][lengthIndex][beatInBar], logarithmic
   */
  Place[] decode(double[][][] worth) {
    int beats = worth.length;
    double[] best = new double[states];
    double[] next = new double[states];
    int[][] before = new int[beats][states];
    start(best, worth);
    for (int beat = 1; beat < beats; beat++) {
      Arrays.fill(next, NEVER);
      for (int to = 0; to < lengths.length; to++) {
        int head = firstState[to];
        for (int from = 0; from < lengths.length; from++) {
          for (int state = firstState[from]; state < firstState[from + 1]; state++) {
            double value = best[state] - stepCost(beat, state, from, to);
            if (value > next[head]) {
              next[head] = value;
              before[beat][head] = state;
            }
          }
        }
        next[head] += worth[beat][to][0];
        for (int place = 1; place < lengths[to]; place++) {
          next[head + place] = best[head + place - 1] + worth[beat][to][place];
          before[beat][head + place] = head + place - 1;
        }
      }
      double[] swap = best;
      best = next;
      next = swap;
    }
    int state = 0;
    for (int other = 1; other < states; other++) {
      state = best[other] > best[state] ? other : state;
    }
    Place[] places = new Place[beats];
    for (int beat = beats - 1; beat >= 0; beat--) {
      int family = family(state);
      places[beat] = new Place(family, state - firstState[family]);
      state = before[beat][state];
    }
    return places;
  }

  /**
   * Probability of each place, beat by beat (forward and backward pass).
   *
   * @param worth read, as for {@link #decode}
   * @return probability[beat][lengthIndex][beatInBar]
   */
  double[][][] posterior(double[][][] worth) {
    int beats = worth.length;
    double[][] forward = new double[beats][states];
    start(forward[0], worth);
    for (int beat = 1; beat < beats; beat++) {
      for (int to = 0; to < lengths.length; to++) {
        int head = firstState[to];
        double sum = NEVER;
        for (int from = 0; from < lengths.length; from++) {
          for (int state = firstState[from]; state < firstState[from + 1]; state++) {
            sum = add(sum, forward[beat - 1][state] - stepCost(beat, state, from, to));
          }
        }
        forward[beat][head] = sum + worth[beat][to][0];
        for (int place = 1; place < lengths[to]; place++) {
          forward[beat][head + place] =
              forward[beat - 1][head + place - 1] + worth[beat][to][place];
        }
      }
    }
    double[][][] posterior = new double[beats][lengths.length][];
    double[] backward = new double[states];
    for (int beat = beats - 1; beat >= 0; beat--) {
      if (beat < beats - 1) {
        backward = back(beat + 1, backward, worth[beat + 1]);
      }
      double whole = NEVER;
      for (int state = 0; state < states; state++) {
        whole = add(whole, forward[beat][state] + backward[state]);
      }
      for (int length = 0; length < lengths.length; length++) {
        posterior[beat][length] = new double[lengths[length]];
        for (int place = 0; place < lengths[length]; place++) {
          int state = firstState[length] + place;
          posterior[beat][length][place] = Math.exp(forward[beat][state] + backward[state] - whole);
        }
      }
    }
    return posterior;
  }

  private double[] back(int beat, double[] later, double[][] worth) {
    double[] here = new double[states];
    for (int from = 0; from < lengths.length; from++) {
      for (int state = firstState[from]; state < firstState[from + 1]; state++) {
        double sum = NEVER;
        for (int to = 0; to < lengths.length; to++) {
          int head = firstState[to];
          sum = add(sum, later[head] + worth[to][0] - stepCost(beat, state, from, to));
        }
        int place = state - firstState[from];
        if (place + 1 < lengths[from]) {
          sum = add(sum, later[state + 1] + worth[from][place + 1]);
        }
        here[state] = sum;
      }
    }
    return here;
  }

  /** A recording may begin anywhere in a bar, most easily at its head. */
  private void start(double[] first, double[][][] worth) {
    for (int length = 0; length < lengths.length; length++) {
      for (int place = 0; place < lengths[length]; place++) {
        first[firstState[length] + place] = worth[0][length][place] - (place == 0 ? 0 : 1);
      }
    }
  }

  /** Price of beginning a bar of one length on a beat after a state of another. */
  private double stepCost(int beat, int state, int from, int to) {
    if (freeBeats.contains(beat)) {
      return 0;
    }
    boolean full = state == firstState[from + 1] - 1;
    return (full ? 0 : cutCost) + (from == to ? 0 : changeCost);
  }

  private static double add(double a, double b) {
    double high = Math.max(a, b);
    double low = Math.min(a, b);
    return low - high < -40 ? high : high + Math.log1p(Math.exp(low - high));
  }
}
