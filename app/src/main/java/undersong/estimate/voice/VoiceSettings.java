package undersong.estimate.voice;

/**
 * What a second voice costs on its way beside the lead, in log odds; chosen by {@code
 * training/seconds.py} on the rows of {@code undersong.bench.decode.SecondVoiceRows}, every song
 * decoded with evidence weighed without it.
 *
 * @param presentBias by which a candidate gains within a phrase that is sung along
 * @param changeCost of beginning or ceasing to sing along
 * @param intervalCost of each semitone by which the interval to the lead changes
 * @param missedCost of a note of the lead without a candidate while the voice goes on
 */
public record VoiceSettings(
    double presentBias, double changeCost, double intervalCost, double missedCost) {
  public static final VoiceSettings DEFAULTS = new VoiceSettings(1.5, 3, 0.3, 2);
}
