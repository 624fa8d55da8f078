package undersong.bench.metrics;

import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * Agreement of beat (or downbeat) times. Lists with no beats agree with nothing: 0.
 *
 * <p>Source: M. Davies, N. Degara, M. Plumbley, "Evaluation Methods for Musical Audio Beat Tracking
 * Algorithms", Queen Mary technical report C4DM-TR-09-06, 2009, as mir_eval implements it.
 */
public final class BeatMetrics {
  public static final double WINDOW_SECONDS = 0.07;
  private static final double TRIM_SECONDS = 5;
  private static final double CEMGIL_SIGMA_SECONDS = 0.04;
  private static final double CONTINUITY = 0.175;

  private BeatMetrics() {}

  /** Beats at or after 5 s, as the field scores them: the start of a song is not judged. */
  public static double[] trim(double[] beats) {
    return Arrays.stream(beats).filter(b -> b >= TRIM_SECONDS).toArray();
  }

  public static PrecisionRecall score(double[] reference, double[] estimated) {
    return Matching.score(reference, estimated, WINDOW_SECONDS);
  }

  /** The best F over the true level and the double and half ones (on and off the beat). */
  public static double fAtAnyLevel(double[] reference, double[] estimated) {
    return best(reference, variation -> score(variation, estimated).f());
  }

  /** Mean Gaussian closeness (A. T. Cemgil and others, 2001), sigma 40 ms. */
  public static double cemgil(double[] reference, double[] estimated) {
    if (reference.length == 0 || estimated.length == 0) {
      return 0;
    }
    double sum = 0;
    for (double beat : reference) {
      double distance = beat - estimated[nearest(estimated, beat)];
      sum += Math.exp(-distance * distance / (2 * CEMGIL_SIGMA_SECONDS * CEMGIL_SIGMA_SECONDS));
    }
    return sum / (0.5 * (reference.length + estimated.length));
  }

  public static double cemgilAtAnyLevel(double[] reference, double[] estimated) {
    return best(reference, variation -> cemgil(variation, estimated));
  }

  private static double best(double[] reference, ToDoubleFunction<double[]> measure) {
    return variations(reference).stream().mapToDouble(measure).max().orElse(0);
  }

  /** 1 where a long enough stretch is tracked well (M. Goto, Y. Muraoka, 1997), else 0. */
  public static double goto97(double[] reference, double[] estimated) {
    int interior = reference.length - 2;
    if (interior < 1 || estimated.length == 0) {
      return 0;
    }
    double[] errors = new double[interior];
    for (int i = 0; i < interior; i++) {
      errors[i] = windowError(reference, i + 1, estimated);
    }
    int bestStart = 0;
    int bestLength = 0;
    int start = 0;
    for (int i = 0; i <= interior; i++) {
      if (i == interior || Math.abs(errors[i]) > 0.35) {
        if (i - start > bestLength) {
          bestStart = start;
          bestLength = i - start;
        }
        start = i + 1;
      }
    }
    double[] run = Arrays.copyOfRange(errors, bestStart, bestStart + bestLength);
    if (bestLength < 2 || bestLength <= 0.25 * interior) {
      return 0;
    }
    double meanMagnitude = Arrays.stream(run).map(Math::abs).average().orElse(1);
    double mean = Arrays.stream(run).average().orElse(1);
    double squares = Arrays.stream(run).map(e -> (e - mean) * (e - mean)).sum();
    return meanMagnitude < 0.2 && Math.sqrt(squares / (bestLength - 1)) < 0.2 ? 1 : 0;
  }

  /** Signed error of the only estimate nearer to beat i than to its neighbors; 1 where not one. */
  private static double windowError(double[] reference, int i, double[] estimated) {
    double before = 0.5 * (reference[i] - reference[i - 1]);
    double after = 0.5 * (reference[i + 1] - reference[i]);
    double[] inside =
        Arrays.stream(estimated)
            .filter(e -> e >= reference[i] - before && e < reference[i] + after)
            .toArray();
    if (inside.length != 1) {
      return 1;
    }
    double offset = inside[0] - reference[i];
    return offset / (offset < 0 ? before : after);
  }

  /** Cross-correlation of two 100 Hz impulse trains around lag 0 (M. McKinney and others, 2007). */
  public static double pScore(double[] reference, double[] estimated) {
    if (reference.length < 2 || estimated.length < 2) {
      return 0;
    }
    double first = Math.min(reference[0], estimated[0]);
    int length =
        (int)
                Math.ceil(
                    Math.max(reference[reference.length - 1], estimated[estimated.length - 1])
                        - first)
            + 1;
    boolean[] referenceTrain = train(reference, first, length);
    boolean[] estimatedTrain = train(estimated, first, length);
    int[] places =
        java.util.stream.IntStream.range(0, referenceTrain.length)
            .filter(i -> referenceTrain[i])
            .toArray();
    double[] intervals = new double[places.length - 1];
    for (int i = 0; i < intervals.length; i++) {
      intervals[i] = places[i + 1] - places[i];
    }
    int window = (int) Math.rint(0.2 * Statistics.median(intervals));
    int sum = 0;
    for (int place : places) {
      for (int lag = -window; lag <= window; lag++) {
        int other = place + lag;
        if (other >= 0 && other < estimatedTrain.length && estimatedTrain[other]) {
          sum++;
        }
      }
    }
    return (double) sum / Math.max(reference.length, estimated.length);
  }

  private static boolean[] train(double[] beats, double first, int lengthSeconds) {
    boolean[] impulses = new boolean[100 * lengthSeconds + 1];
    for (double beat : beats) {
      impulses[(int) Math.ceil((beat - first) * 100)] = true;
    }
    return impulses;
  }

  /**
   * Continuity (S. Hainsworth 2004; A. Klapuri and others 2006).
   *
   * @param correctLongest longest run of correct beats at the true level, over all
   * @param correctTotal correct beats at the true level, over all
   * @param anyLongest the same at the level where it is best
   * @param anyTotal the same at the level where it is best
   */
  public record Continuity(
      double correctLongest, double correctTotal, double anyLongest, double anyTotal) {}

  public static Continuity continuity(double[] reference, double[] estimated) {
    if (reference.length < 2 || estimated.length < 2) {
      return new Continuity(0, 0, 0, 0);
    }
    double[] true0 = runs(reference, estimated);
    double anyLongest = 0;
    double anyTotal = 0;
    for (double[] variation : variations(reference)) {
      if (variation.length >= 2) {
        double[] run = runs(variation, estimated);
        anyLongest = Math.max(anyLongest, run[0]);
        anyTotal = Math.max(anyTotal, run[1]);
      }
    }
    return new Continuity(true0[0], true0[1], anyLongest, anyTotal);
  }

  private static double[] runs(double[] reference, double[] estimated) {
    boolean[] used = new boolean[reference.length];
    int longest = 0;
    int run = 0;
    int total = 0;
    for (int e = 0; e < estimated.length; e++) {
      int near = nearest(reference, estimated[e]);
      boolean correct = !used[near] && isContinuous(reference, near, estimated, e);
      used[near] |= correct;
      run = correct ? run + 1 : 0;
      total += correct ? 1 : 0;
      longest = Math.max(longest, run);
    }
    double all = Math.max(reference.length, estimated.length);
    return new double[] {longest / all, total / all};
  }

  private static boolean isContinuous(double[] reference, int r, double[] estimated, int e) {
    boolean forward = e == 0 || r == 0;
    double referenceInterval = interval(reference, r, forward);
    double estimatedInterval = interval(estimated, e, forward);
    double phase = Math.abs(estimated[e] - reference[r]) / referenceInterval;
    double period = Math.abs(1 - estimatedInterval / referenceInterval);
    return phase < CONTINUITY && period < CONTINUITY;
  }

  private static double interval(double[] beats, int i, boolean forward) {
    return (forward && i + 1 < beats.length) || i == 0
        ? beats[i + 1] - beats[i]
        : beats[i] - beats[i - 1];
  }

  /** Information in the beat error histogram, 41 bins, 0 to 1 (M. Davies and others, 2011). */
  public static double informationGain(double[] reference, double[] estimated) {
    if (reference.length < 2 || estimated.length < 2) {
      return 0;
    }
    double norm = Math.log(41) / Math.log(2);
    double entropy =
        Math.max(errorEntropy(reference, estimated), errorEntropy(estimated, reference));
    return (norm - entropy) / norm;
  }

  private static double errorEntropy(double[] reference, double[] estimated) {
    double[] bins = new double[41];
    for (double beat : estimated) {
      int near = nearest(reference, beat);
      double error = beat - reference[near];
      boolean before = near == reference.length - 1 || (error < 0 && near > 0);
      double interval =
          before ? reference[near] - reference[near - 1] : reference[near + 1] - reference[near];
      double share = error / interval;
      share -= Math.rint(share);
      int bin = (int) Math.floor((share + 0.5) * 41);
      bins[Math.min(40, Math.max(0, bin))] += 1.0 / estimated.length;
    }
    return Statistics.entropyBits(bins);
  }

  /** The reference, its off-beats, the double level, and every odd or even beat. */
  static List<double[]> variations(double[] reference) {
    int n = reference.length;
    if (n < 2) {
      return List.of(reference);
    }
    double[] offBeats = new double[n - 1];
    double[] doubled = new double[2 * n - 1];
    double[] odd = new double[(n + 1) / 2];
    double[] even = new double[n / 2];
    for (int i = 0; i < n; i++) {
      doubled[2 * i] = reference[i];
      if (i + 1 < n) {
        offBeats[i] = (reference[i] + reference[i + 1]) / 2;
        doubled[2 * i + 1] = offBeats[i];
      }
      (i % 2 == 0 ? odd : even)[i / 2] = reference[i];
    }
    return List.of(reference, offBeats, doubled, odd, even);
  }

  static int nearest(double[] sorted, double value) {
    int found = Arrays.binarySearch(sorted, value);
    if (found >= 0) {
      return found;
    }
    int after = -found - 1;
    if (after == 0) {
      return 0;
    }
    return after == sorted.length || value - sorted[after - 1] <= sorted[after] - value
        ? after - 1
        : after;
  }
}
