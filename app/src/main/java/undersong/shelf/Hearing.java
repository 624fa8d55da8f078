package undersong.shelf;

import java.time.Instant;
import java.util.List;
import undersong.reading.Correction;

/**
 * What a listener heard for themselves.
 *
 * @param heard in the form in which it could be said against the reading
 * @param decision that was made last
 * @param decisions all that were made, oldest first, whoever made them
 */
public record Hearing(
    long id,
    String author,
    Instant saidAt,
    Correction heard,
    Decision decision,
    List<Decided> decisions) {
  public Hearing {
    decisions = List.copyOf(decisions);
  }

  /** Who decided what, and when. */
  public record Decided(String author, Instant saidAt, Decision decision) {}

  /** What the listener made of it, once it was held against the reading. */
  public enum Decision {
    OPEN,
    /** The listener's word stands; it was said as a correction. */
    MINE,
    /** The program's word stands. */
    PROGRAM,
    /** Both stand beside each other. */
    BOTH
  }
}
