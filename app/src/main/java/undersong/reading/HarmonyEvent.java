package undersong.reading;

import java.util.Optional;
import undersong.theory.Key;
import undersong.theory.RomanNumeral;
import undersong.time.Span;

/**
 * One chord seen from its key.
 *
 * @param span of the chord
 * @param key it is read in
 * @param numeral empty where no chord sounds
 * @param function what it does in the key
 * @param borrowed whether it comes from the parallel mode
 * @param arrivalBeats how far from the grid place it belongs to (the nearest bar line or strong
 *     beat through which it holds) it arrives, in beats: -0.5 = half a beat early, 0 = on it
 * @param probability that the numeral is right
 */
public record HarmonyEvent(
    Span span,
    Key key,
    Optional<RomanNumeral> numeral,
    HarmonicFunction function,
    boolean borrowed,
    double arrivalBeats,
    double probability) {
  public HarmonyEvent {
    Probability.check(probability);
  }

  Object essence() {
    return java.util.List.of(span, key, numeral, function, borrowed, arrivalBeats);
  }
}
