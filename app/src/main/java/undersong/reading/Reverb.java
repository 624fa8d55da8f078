package undersong.reading;

import java.util.List;
import java.util.stream.DoubleStream;
import undersong.time.Span;

/**
 * The room of one section.
 *
 * @param decaySeconds time to fall by 60 dB after sounds end (ISO 3382), one entry per {@link
 *     HearingBand}; 0 where it is not told: where no sound ends freely, or too little of the room
 *     is heard
 * @param wetToDryDb level of the reverberant sound against the direct sound of the mix; the lower
 *     the drier
 * @param wanderDb how much that level wanders from moment to moment (standard deviation)
 * @param changeDb by how much the section is wetter (drier: negative) than the one before it; 0
 *     where no change is told
 * @param probability that decay and level are about right
 */
public record Reverb(
    Span span,
    List<Double> decaySeconds,
    double wetToDryDb,
    double wanderDb,
    double changeDb,
    double probability) {
  public Reverb {
    decaySeconds = List.copyOf(decaySeconds);
    if (decaySeconds.size() != HearingBand.values().length) {
      throw new IllegalArgumentException(
          "A reverb has %d decay times; there must be one for each of the %d hearing bands."
              .formatted(decaySeconds.size(), HearingBand.values().length));
    }
    for (double seconds : decaySeconds) {
      if (!(seconds >= 0)) {
        throw new IllegalArgumentException(
            "A decay of %s s must not be negative.".formatted(seconds));
      }
    }
    Probability.check(probability);
  }

  /** Geometric mean of the decay times that are told; 0 where none is. */
  public double meanDecaySeconds() {
    double[] told = decaySeconds.stream().mapToDouble(d -> d).filter(d -> d > 0).toArray();
    return told.length == 0
        ? 0
        : Math.exp(DoubleStream.of(told).map(Math::log).average().orElse(0));
  }

  /** The same room, told to be wetter or drier by so much than the one before it. */
  public Reverb withChange(double decibels) {
    return new Reverb(span, decaySeconds, wetToDryDb, wanderDb, decibels, probability);
  }

  Object essence() {
    return List.of(span, decaySeconds, wetToDryDb, wanderDb, changeDb);
  }
}
