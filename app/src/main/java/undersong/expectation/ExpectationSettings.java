package undersong.expectation;

/**
 * How expectation weighs what it knows. The defaults were chosen by ten-fold checks within the
 * songs the chart table is counted from.
 *
 * @param inSong whether the song so far is listened to; without it only other songs count
 * @param knowingWhen whether a chord is judged knowing how long the one before it lasted
 * @param longestInSong symbols a context of the song so far may hold
 * @param novelty how readily other songs lead to expect what never followed in them
 * @param noveltyInSong how readily the song so far does
 * @param certaintyPower how much more the surer of the two weighs
 */
public record ExpectationSettings(
    boolean inSong,
    boolean knowingWhen,
    int longestInSong,
    double novelty,
    double noveltyInSong,
    double certaintyPower) {
  public static final ExpectationSettings DEFAULTS =
      new ExpectationSettings(true, true, 6, 2, 1, 0.5);

  public ExpectationSettings {
    if (longestInSong < 0
        || longestInSong > Viewpoint.LONGEST_CONTEXT
        || !(novelty > 0)
        || !(noveltyInSong > 0)
        || !(certaintyPower >= 0)) {
      throw new IllegalArgumentException(
          "Contexts of %d symbols, novelty %s and %s, certainty power %s: contexts hold 0 to 8, novelty must be positive, power not negative."
              .formatted(longestInSong, novelty, noveltyInSong, certaintyPower));
    }
  }

  public ExpectationSettings withoutSong() {
    return new ExpectationSettings(
        false, knowingWhen, longestInSong, novelty, noveltyInSong, certaintyPower);
  }

  public ExpectationSettings withoutWhen() {
    return new ExpectationSettings(
        inSong, false, longestInSong, novelty, noveltyInSong, certaintyPower);
  }
}
