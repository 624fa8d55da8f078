package undersong.estimate.voice;

/**
 * How a second voice is told from the accompaniment. The weights are a logistic regression over
 * candidates (every pitch that begins with a note of the lead, right or wrong) of the tuning songs,
 * ridge 1; the costs are those with the best notes there, every song decoded with weights fitted
 * without it. The preference of one song set for voices below the lead was left out of the fit.
 *
 * @param weights of the evidence
 * @param presentBias log odds by which a candidate gains within a phrase that is sung along
 * @param changeCost of beginning or ceasing to sing along
 * @param intervalCost of each semitone by which the interval to the lead changes
 * @param missedCost of a note of the lead without a candidate while the voice goes on
 */
public record VoiceSettings(
    Weights weights,
    double presentBias,
    double changeCost,
    double intervalCost,
    double missedCost) {
  /**
   * Weights in log odds: of the logarithms of the onset, sustain and second-pitch activations and
   * of the chance that a second voice sounds; of how many notes begin together (to 8, in fours); of
   * the seconds between both notes' ends (to 1.5); of an octave, and of a third, fourth, fifth or
   * sixth, to the lead; of having sounded before.
   */
  public record Weights(
      double constant,
      double onset,
      double sustain,
      double secondPitch,
      double secondSounds,
      double together,
      double endsApart,
      double octave,
      double consonant,
      double before) {}

  public static final VoiceSettings DEFAULTS =
      new VoiceSettings(
          new Weights(0.69, 1.96, 0.29, 1.93, 0.97, 0.72, -0.63, -1.68, 1.93, -0.52),
          2,
          4,
          0.15,
          2);
}
