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
 * @param leaving how likely a song is, at any chord, to leave what it has done so far and do as
 *     other songs do: however often a loop went round, its end is no miracle
 */
public record ExpectationSettings(
    boolean inSong,
    boolean knowingWhen,
    int longestInSong,
    double novelty,
    double noveltyInSong,
    double certaintyPower,
    double leaving) {
  public static final ExpectationSettings DEFAULTS =
      new ExpectationSettings(true, true, 8, 2, 1, 0.5, 0.05);

  public ExpectationSettings {
    if (longestInSong < 0 || longestInSong > Viewpoint.LONGEST_CONTEXT) {
      throw new IllegalArgumentException(
          "Contexts of %d symbols must hold 0 to %d."
              .formatted(longestInSong, Viewpoint.LONGEST_CONTEXT));
    }
    if (!(novelty > 0 && noveltyInSong > 0 && certaintyPower >= 0 && leaving >= 0 && leaving < 1)) {
      throw new IllegalArgumentException(
          "Novelty (%s, %s) must be positive, certainty power %s not negative, leaving %s below 1."
              .formatted(novelty, noveltyInSong, certaintyPower, leaving));
    }
  }

  public ExpectationSettings withoutSong() {
    return new ExpectationSettings(
        false, knowingWhen, longestInSong, novelty, noveltyInSong, certaintyPower, leaving);
  }

  public ExpectationSettings withoutWhen() {
    return new ExpectationSettings(
        inSong, false, longestInSong, novelty, noveltyInSong, certaintyPower, leaving);
  }
}
