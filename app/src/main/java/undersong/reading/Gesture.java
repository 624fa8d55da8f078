package undersong.reading;

import undersong.time.Span;

/**
 * A change of sound that is heard as one movement.
 *
 * @param octaves how far the roll-off (for a riser the centroid) moves, up positive
 * @param levelChangeDb how far the level moves; for a stop, how deep it falls
 * @param steadiness rank correlation (Spearman) of the movement with time, -1 to 1; 0 for a stop
 */
public record Gesture(
    Kind kind,
    Span span,
    double octaves,
    double levelChangeDb,
    double steadiness,
    double probability) {

  public enum Kind {
    /** Something climbs into a boundary and is gone. */
    RISER,
    /** A filter opens: roll-off rises while the notes stay. */
    OPENING,
    /** A filter closes. */
    CLOSING,
    /** One sound rises from nothing. */
    SWELL,
    /** All falls silent and comes back. */
    STOP
  }

  public Gesture {
    Probability.check(probability);
  }

  Object essence() {
    return java.util.List.of(kind, span, octaves, levelChangeDb, steadiness);
  }
}
