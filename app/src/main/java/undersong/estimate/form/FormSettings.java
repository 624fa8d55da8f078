package undersong.estimate.form;

/**
 * Limits of the form estimator; starting points of our own, tuned on songs rendered from charts
 * that are marked for learning.
 *
 * @param longestBars of a section
 * @param harmonyShare of harmony in a bar's likeness, texture having the rest
 * @param noveltyWeight of a change of texture against the sameness of what lies within a section
 * @param heardShare of the trained ear's boundaries beside a change of texture
 * @param repetitionWeight of being a copy of music heard before or after
 * @param sectionCost of one more section
 * @param samenessLimit likeness above which two sections get one letter, between the song's typical
 *     likeness of bars (0) and identity (1)
 */
public record FormSettings(
    int longestBars,
    double harmonyShare,
    double noveltyWeight,
    double heardShare,
    double repetitionWeight,
    double sectionCost,
    double samenessLimit) {
  public static final FormSettings DEFAULTS = new FormSettings(32, 0.65, 3.0, 3.0, 0.4, 8.0, 0.45);

  /** Where nobody heard boundaries, texture and repetition must carry them alone. */
  FormSettings withoutEar() {
    return new FormSettings(longestBars, harmonyShare, 4.0, 0, 1.0, 4.0, 0.55);
  }
}
