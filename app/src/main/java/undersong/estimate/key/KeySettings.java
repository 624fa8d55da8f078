package undersong.estimate.key;

/**
 * What may be chosen in reading keys ({@code KeyFit} of the bench tries other choices).
 *
 * @param earWeight of what the trained ear says of a tonic, beside the chords: little, since it has
 *     learned from generated music, whose loops often hide their tonic
 * @param changeAtSection score of a change of key where a section begins
 * @param changeElsewhere the same at other bar lines
 * @param changeAtLift the same where a section comes back at another height: the key has most
 *     likely changed
 */
public record KeySettings(
    double earWeight, double changeAtSection, double changeElsewhere, double changeAtLift) {
  /**
   * The ear's weight was chosen on tuning songs; the prices of a change on the charts the evidence
   * was counted on, and bench/CHARTS.md says how many changes they find, and tell falsely, on
   * charts that nothing was counted on.
   */
  public static final KeySettings DEFAULTS = new KeySettings(0.07, Math.exp(-4), Math.exp(-5), 0.5);

  public KeySettings {
    if (!(earWeight >= 0)) {
      throw new IllegalArgumentException(
          "The ear's weight is %s; it must not be negative.".formatted(earWeight));
    }
    for (double change : new double[] {changeAtSection, changeElsewhere, changeAtLift}) {
      if (!(change > 0 && change < 1)) {
        throw new IllegalArgumentException(
            "A change of key scores %s; it must lie between 0 and 1.".formatted(change));
      }
    }
  }
}
