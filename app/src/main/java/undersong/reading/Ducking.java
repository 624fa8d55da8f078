package undersong.reading;

import undersong.time.Span;

/**
 * A stretch in which everything else dips with each kick.
 *
 * @param depthDb how far the level from 200 Hz to 8 kHz dips
 * @param lagSeconds from the kick to the deepest point
 * @param recoverySeconds from the deepest point until half of the dip (in dB) is made up
 */
public record Ducking(
    Span span, double depthDb, double lagSeconds, double recoverySeconds, double probability) {
  public Ducking {
    Probability.check(probability);
  }

  Object essence() {
    return java.util.List.of(span, depthDb, lagSeconds, recoverySeconds);
  }
}
