package undersong.bench.metrics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Agreement of sections. The estimate is cropped or padded to the reference's span first, with a
 * label of its own where it says nothing.
 *
 * <p>Sources: D. Turnbull and others, ISMIR 2007 (boundaries); M. Levy, M. Sandler, IEEE TASLP
 * 16(2), 2008 (pairs); H. Lukashevich, ISMIR 2008 (over- and under-segmentation).
 */
public final class FormMetrics {
  private static final double FRAME_SECONDS = 0.1;

  private FormMetrics() {}

  /** Span from 0 to the end of the reference, without gaps. */
  static List<Timed<String>> fit(List<Timed<String>> sections, double endSeconds) {
    List<Timed<String>> fitted = new ArrayList<>();
    double at = 0;
    for (Timed<String> section : sections) {
      double from = Math.max(at, section.startSeconds());
      double to = Math.min(endSeconds, section.endSeconds());
      if (to > from) {
        if (from > at) {
          fitted.add(new Timed<>(at, from, "filler" + fitted.size()));
        }
        fitted.add(new Timed<>(from, to, section.value().toLowerCase(Locale.ROOT)));
        at = to;
      }
    }
    if (endSeconds > at) {
      fitted.add(new Timed<>(at, endSeconds, "filler" + fitted.size()));
    }
    return fitted;
  }

  private static double end(List<Timed<String>> sections) {
    return sections.get(sections.size() - 1).endSeconds();
  }

  /** Unique edges of the sections, rounded to 0.01 ms. */
  static double[] edges(List<Timed<String>> sections) {
    return sections.stream()
        .flatMap(s -> java.util.stream.Stream.of(s.startSeconds(), s.endSeconds()))
        .mapToDouble(t -> Math.rint(t * 100_000) / 100_000)
        .distinct()
        .sorted()
        .toArray();
  }

  /**
   * Boundary detection.
   *
   * @param windowSeconds 0.5 or 3 as the field reports them
   * @param trimmed leave out the first and last edge, which are free hits
   */
  public static PrecisionRecall boundaries(
      List<Timed<String>> reference,
      List<Timed<String>> estimated,
      double windowSeconds,
      boolean trimmed) {
    if (reference.isEmpty()) {
      return new PrecisionRecall(0, 0);
    }
    double[] truth = edges(fit(reference, end(reference)));
    double[] guess = edges(fit(estimated, end(reference)));
    return trimmed
        ? Matching.score(inner(truth), inner(guess), windowSeconds)
        : Matching.score(truth, guess, windowSeconds);
  }

  private static double[] inner(double[] edges) {
    return edges.length <= 2 ? new double[0] : Arrays.copyOfRange(edges, 1, edges.length - 1);
  }

  /**
   * Median distances between boundaries, the outer ones included.
   *
   * @param referenceToEstimate seconds from each reference to its nearest estimate
   * @param estimateToReference seconds from each estimate to its nearest reference
   */
  public record Deviation(double referenceToEstimate, double estimateToReference) {}

  public static Deviation deviation(List<Timed<String>> reference, List<Timed<String>> estimated) {
    double[] truth = edges(fit(reference, end(reference)));
    double[] guess = edges(fit(estimated, end(reference)));
    return new Deviation(medianDistance(truth, guess), medianDistance(guess, truth));
  }

  private static double medianDistance(double[] from, double[] to) {
    return Statistics.median(
        Arrays.stream(from).map(t -> Math.abs(to[BeatMetrics.nearest(to, t)] - t)).toArray());
  }

  /** Pairs of frames (ten a second) under one label in both. */
  public static PrecisionRecall pairwise(
      List<Timed<String>> reference, List<Timed<String>> estimated) {
    if (reference.isEmpty()) {
      return new PrecisionRecall(0, 0);
    }
    Table table = Table.of(reference, estimated);
    double both = 0;
    for (double[] row : table.joint) {
      for (double count : row) {
        both += count * (count - 1) / 2;
      }
    }
    double guessed = Arrays.stream(table.columns()).map(c -> c * (c - 1) / 2).sum();
    double true0 = Arrays.stream(table.rows()).map(c -> c * (c - 1) / 2).sum();
    return new PrecisionRecall(guessed == 0 ? 0 : both / guessed, true0 == 0 ? 0 : both / true0);
  }

  /**
   * Normalized conditional entropies.
   *
   * @param over 1 = no reference label is split up
   * @param under 1 = no reference labels are thrown together
   */
  public record Entropies(double over, double under) {
    public double f() {
      return new PrecisionRecall(under, over).f();
    }
  }

  public static Entropies entropies(List<Timed<String>> reference, List<Timed<String>> estimated) {
    Table table = Table.of(reference, estimated);
    return new Entropies(
        1 - ratio(table.estimateGivenReference(), log2(table.columns().length)),
        1 - ratio(table.referenceGivenEstimate(), log2(table.rows().length)));
  }

  /** The same normalized by the entropy of the labels themselves (V-measure). */
  public static Entropies vMeasure(List<Timed<String>> reference, List<Timed<String>> estimated) {
    Table table = Table.of(reference, estimated);
    return new Entropies(
        1 - ratio(table.estimateGivenReference(), table.entropy(table.columns())),
        1 - ratio(table.referenceGivenEstimate(), table.entropy(table.rows())));
  }

  private static double ratio(double part, double whole) {
    return whole <= 0 ? 0 : part / whole;
  }

  private static double log2(double value) {
    return Math.log(value) / Math.log(2);
  }

  /** How often each reference label meets each estimated one, in frames. */
  private static final class Table {
    final double[][] joint;
    final double total;

    private Table(double[][] joint, double total) {
      this.joint = joint;
      this.total = total;
    }

    static Table of(List<Timed<String>> reference, List<Timed<String>> estimated) {
      double end = end(reference);
      int frames = Math.max(1, (int) Math.floor(end / FRAME_SECONDS));
      int[] truth = labels(fit(reference, end), frames);
      int[] guess = labels(fit(estimated, end), frames);
      double[][] joint =
          new double[Arrays.stream(truth).max().orElse(0) + 1]
              [Arrays.stream(guess).max().orElse(0) + 1];
      for (int i = 0; i < frames; i++) {
        joint[truth[i]][guess[i]]++;
      }
      return new Table(joint, frames);
    }

    private static int[] labels(List<Timed<String>> sections, int frames) {
      Map<String, Integer> numbers = new HashMap<>();
      int[] labels = new int[frames];
      int section = 0;
      for (int i = 0; i < frames; i++) {
        while (section + 1 < sections.size()
            && sections.get(section).endSeconds() <= i * FRAME_SECONDS) {
          section++;
        }
        labels[i] = numbers.computeIfAbsent(sections.get(section).value(), label -> numbers.size());
      }
      return labels;
    }

    double[] rows() {
      return Arrays.stream(joint).mapToDouble(row -> Arrays.stream(row).sum()).toArray();
    }

    double[] columns() {
      double[] sums = new double[joint[0].length];
      for (double[] row : joint) {
        for (int c = 0; c < sums.length; c++) {
          sums[c] += row[c];
        }
      }
      return sums;
    }

    double entropy(double[] counts) {
      return Statistics.entropyBits(Arrays.stream(counts).map(c -> c / total).toArray());
    }

    private double jointEntropy() {
      double sum = 0;
      for (double[] row : joint) {
        sum += Statistics.entropyBits(Arrays.stream(row).map(c -> c / total).toArray());
      }
      return sum;
    }

    double estimateGivenReference() {
      return jointEntropy() - entropy(rows());
    }

    double referenceGivenEstimate() {
      return jointEntropy() - entropy(columns());
    }
  }
}
