package undersong.reading;

import java.util.List;
import undersong.time.Span;

/**
 * The room of one section.
 *
 * @param decaySeconds time to fall by 60 dB after sounds end, one entry per {@link HearingBand}; 0
 *     where no sound ends freely
 * @param wetToDryDb level of what follows a sound's end against the sound; the lower the drier
 */
public record Reverb(Span span, List<Double> decaySeconds, double wetToDryDb, double probability) {
  public Reverb {
    decaySeconds = List.copyOf(decaySeconds);
    if (decaySeconds.size() != HearingBand.values().length) {
      throw new IllegalArgumentException(
          "A reverb has %d decay times; there must be one for each of the %d hearing bands."
              .formatted(decaySeconds.size(), HearingBand.values().length));
    }
    Probability.check(probability);
  }

  Object essence() {
    return List.of(span, decaySeconds, wetToDryDb);
  }
}
