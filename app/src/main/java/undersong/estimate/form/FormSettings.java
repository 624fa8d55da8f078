package undersong.estimate.form;

import java.util.List;

/**
 * Limits of the form estimator; starting points of our own, fitted by {@code FormFit} of the bench
 * on songs that are marked for learning.
 *
 * @param longestBars of a section
 * @param harmonyShare of harmony in a bar's likeness, texture having the rest
 * @param tuneShare of the leading tune in a bar's likeness, where both bars have one
 * @param boundaryWeights of the trained ear, a change of texture, a repeat that begins, one that
 *     ends
 * @param lengthWeight of usual lengths
 * @param repetitionWeight of being a copy of music heard before or after
 * @param sectionCost of one more section
 * @param samenessLimit likeness above which two sections get one letter, between the song's typical
 *     likeness of bars (0) and identity (1)
 */
public record FormSettings(
    int longestBars,
    double harmonyShare,
    double tuneShare,
    List<Double> boundaryWeights,
    double lengthWeight,
    double repetitionWeight,
    double sectionCost,
    double samenessLimit) {
  private static final int WITNESSES = 4;

  public FormSettings {
    boundaryWeights = List.copyOf(boundaryWeights);
    if (boundaryWeights.size() != WITNESSES) {
      throw new IllegalArgumentException(
          "%d weights for boundaries were given; there are %d witnesses."
              .formatted(boundaryWeights.size(), WITNESSES));
    }
  }

  public static final FormSettings DEFAULTS =
      new FormSettings(32, 0.65, 0.3, List.of(9.0, 6.0, 1.0, 0.0), 0.75, 0.4, 6, 0.3);

  /** These, weighing what speaks for a boundary otherwise. */
  public FormSettings withBoundaryWeights(List<Double> weights) {
    return new FormSettings(
        longestBars,
        harmonyShare,
        tuneShare,
        weights,
        lengthWeight,
        repetitionWeight,
        sectionCost,
        samenessLimit);
  }

  /** These, weighing usual lengths, copies and the cost of a section otherwise. */
  public FormSettings withCosts(double length, double repetition, double section) {
    return new FormSettings(
        longestBars,
        harmonyShare,
        tuneShare,
        boundaryWeights,
        length,
        repetition,
        section,
        samenessLimit);
  }

  /** These, giving one letter from another likeness on. */
  public FormSettings withSamenessLimit(double limit) {
    return new FormSettings(
        longestBars,
        harmonyShare,
        tuneShare,
        boundaryWeights,
        lengthWeight,
        repetitionWeight,
        sectionCost,
        limit);
  }

  /** Where nobody heard boundaries, texture and repetition must carry them alone. */
  FormSettings withoutEar() {
    return new FormSettings(
        longestBars, harmonyShare, 0, List.of(0.0, 4.0, 0.0, 0.0), 1, 1.0, 4.0, 0.55);
  }
}
