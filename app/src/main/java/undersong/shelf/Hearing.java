package undersong.shelf;

import java.time.Instant;
import undersong.reading.Correction;

/**
 * What a listener heard for themselves.
 *
 * @param heard in the form in which it could be said against the reading
 */
public record Hearing(long id, String author, Instant saidAt, Correction heard, Decision decision) {

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
