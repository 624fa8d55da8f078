package undersong.bench.render;

/**
 * One song of a set: which chart, and how the band plays it.
 *
 * @param chartId as the reader numbers it
 * @param fromBar first bar of the excerpt
 * @param toBar bar before which it ends
 * @param swingRatio 1 = even
 * @param drift largest deviation of the tempo, as a share; 0 = steady
 * @param earlyShare how many chords come half a beat early
 * @param tuningCents of the worn rendering
 * @param sung whether a formant voice sings the lead; otherwise an instrument plays it
 * @param echo whether the lead is sent to an echo at the end of phrases
 */
public record Song(
    String chartId,
    int fromBar,
    int toBar,
    String styleName,
    double bpm,
    double swingRatio,
    double drift,
    double earlyShare,
    double tuningCents,
    boolean sung,
    boolean echo) {
  Style style() {
    return Style.valueOf(styleName);
  }

  /** Repeatable randomness of this song alone. */
  java.util.Random random(int use) {
    return new java.util.Random(31L * chartId.hashCode() + use);
  }
}
