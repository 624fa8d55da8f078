package undersong.render.synth;

/**
 * One note to be sounded.
 *
 * @param hertz its fundamental
 * @param lengthSamples from its beginning to the moment it is let go
 * @param strength 0 to 1, how hard it is played
 * @param glideFromHertz pitch it slides from; equal to {@code hertz} where it does not slide
 * @param syllable sung text; empty for instruments
 * @param seed of everything random in it
 */
public record ToneRequest(
    double hertz,
    int lengthSamples,
    double strength,
    double glideFromHertz,
    String syllable,
    long seed) {
  public ToneRequest {
    if (!(hertz > 8 && hertz < 16_000 && glideFromHertz > 8) || lengthSamples < 1) {
      throw new IllegalArgumentException(
          "A tone of %s Hz (from %s Hz) and %d samples must lie within 8 to 16000 Hz and last."
              .formatted(hertz, glideFromHertz, lengthSamples));
    }
  }
}
