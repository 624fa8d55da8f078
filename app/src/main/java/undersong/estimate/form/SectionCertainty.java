package undersong.estimate.form;

import java.util.List;
import undersong.estimate.LearnedCertainty;

/**
 * How likely a section begins and ends where it is told: by what the ear heard at either end and by
 * a length of eight bars or a multiple.
 */
public final class SectionCertainty {
  /** What is weighed; the beginning and the end of a recording need not be heard. */
  public static final List<String> EVIDENCE =
      List.of("heard-start", "at-beginning", "heard-end", "at-end", "eight-bars");

  private static final LearnedCertainty SURE = LearnedCertainty.of("sections", EVIDENCE);

  private static final double FLOOR = 0.02;

  private final double[][] boundaries;
  private final int size;

  /**
   * @param boundaries read: {@link BoundaryEvidence}, bar by bar
   * @param size bars that are music; those after them ring on
   */
  SectionCertainty(double[][] boundaries, int size) {
    this.boundaries = boundaries;
    this.size = size;
  }

  /** Probability of a section of these bars, indices from 0, both included. */
  double of(int first, int last) {
    return SURE.of(evidence(first, last));
  }

  double[] evidence(int first, int last) {
    boolean begins = first == 0;
    boolean ends = last + 1 >= size;
    return new double[] {
      begins ? 0 : heard(first),
      begins ? 1 : 0,
      ends ? 0 : heard(last + 1),
      ends ? 1 : 0,
      (Math.min(last + 1, size) - first) % 8 == 0 ? 1 : 0
    };
  }

  private double heard(int bar) {
    double ear = boundaries[bar][0];
    return Math.log((ear + FLOOR) / (1 + FLOOR - ear));
  }
}
