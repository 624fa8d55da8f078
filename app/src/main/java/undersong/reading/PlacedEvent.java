package undersong.reading;

import java.util.OptionalDouble;
import undersong.time.Span;

/**
 * One sound, from onset to release, and its place.
 *
 * @param midiPitch 69 = A4; empty for a struck sound and for a phrase of several pitches
 * @param bottomHz edges of what it was measured in, with {@code topHz}
 * @param placement -1 left only, 0 the middle, 1 right only: the place of a constant-power pan with
 *     the same levels. Avendano's panning index (2003) of it is {@code sign(p) (1 - cos(p pi /
 *     2))}.
 * @param strengthDb its level against the whole mix while it sounds, in dB
 * @param probability that it is there and stands within 0.15 of the place
 */
public record PlacedEvent(
    Span span,
    SoundSource source,
    OptionalDouble midiPitch,
    double bottomHz,
    double topHz,
    double placement,
    double strengthDb,
    double probability) {
  public PlacedEvent {
    if (!(placement >= -1 && placement <= 1)) {
      throw new IllegalArgumentException(
          "Placement %s must lie within -1 (left) to 1 (right).".formatted(placement));
    }
    if (!(bottomHz >= 0 && topHz > bottomHz)) {
      throw new IllegalArgumentException(
          "A placed sound from %s to %s Hz needs a band that reaches upward."
              .formatted(bottomHz, topHz));
    }
    Probability.check(probability);
  }

  /** The same sound at another place, as somebody said. */
  public PlacedEvent at(double saidPlacement) {
    return new PlacedEvent(span, source, midiPitch, bottomHz, topHz, saidPlacement, strengthDb, 1);
  }

  Object essence() {
    return java.util.List.of(span, source, midiPitch, bottomHz, topHz, placement, strengthDb);
  }
}
