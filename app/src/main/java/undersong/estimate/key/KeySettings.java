package undersong.estimate.key;

/**
 * What may be chosen in reading keys ({@code KeyFit} of the bench tries other choices).
 *
 * @param earWeight of what the trained ear says of a tonic over the whole song, beside the chords:
 *     little, since it has learned from generated music, whose loops often hide their tonic
 * @param earChangeWeight of how much more than in the rest of the song it hears a key in a bar
 * @param tuneWeight of how the tune dwells on the degrees of a key
 * @param changeAtSection score of a change of key where a section begins
 * @param changeElsewhere the same at other bar lines
 * @param changeAtLift the same where a section comes back at another height: the key has most
 *     likely changed
 * @param changeToNear what a change scores less where the two keys share all notes but one, or all:
 *     a few bars in such a key are rarely a new one
 * @param changeOfLetter natural logarithm, negative: price of all sections of one letter having a
 *     key of their own
 */
public record KeySettings(
    double earWeight,
    double earChangeWeight,
    double tuneWeight,
    double changeAtSection,
    double changeElsewhere,
    double changeAtLift,
    double changeToNear,
    double changeOfLetter) {
  /**
   * Chosen on tuning songs and on the charts the evidence was counted on; bench/CHARTS.md says how
   * many changes the prices find, and tell falsely, on charts that nothing was counted on.
   */
  public static final KeySettings DEFAULTS =
      new KeySettings(
          0.07, 2.4, 0.1, Math.exp(-3.5), Math.exp(-6), Math.exp(-0.3), Math.exp(-2), -3.5);

  public KeySettings {
    for (double weight : new double[] {earWeight, earChangeWeight, tuneWeight}) {
      if (!(weight >= 0)) {
        throw new IllegalArgumentException(
            "A weight of evidence is %s; it must not be negative.".formatted(weight));
      }
    }
    for (double change :
        new double[] {changeAtSection, changeElsewhere, changeAtLift, changeToNear}) {
      if (!(change > 0 && change < 1)) {
        throw new IllegalArgumentException(
            "A change of key scores %s; it must lie between 0 and 1.".formatted(change));
      }
    }
    if (!(changeOfLetter < 0)) {
      throw new IllegalArgumentException(
          "The price of a letter's own key is %s; it must be negative.".formatted(changeOfLetter));
    }
  }
}
