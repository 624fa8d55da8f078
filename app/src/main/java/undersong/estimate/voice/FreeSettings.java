package undersong.estimate.voice;

/**
 * What a voice that goes its own way costs from note to note, in log odds; chosen by {@code
 * training/free.py} on the rows of {@code undersong.bench.decode.FreeVoiceRows}, every song decoded
 * with evidence weighed without it.
 *
 * @param presentBias by which every candidate gains
 * @param phraseCost of beginning a phrase
 * @param leapCost of each semitone from one note to the next
 * @param leastInAll that all its notes of a song must come to, each raised by one
 */
public record FreeSettings(
    double presentBias, double phraseCost, double leapCost, double leastInAll) {
  public static final FreeSettings DEFAULTS = new FreeSettings(1, 2, 0.2, 20);

  /** No such voice is told. */
  public static final FreeSettings NOBODY = new FreeSettings(1, 2, 0.2, Double.POSITIVE_INFINITY);
}
