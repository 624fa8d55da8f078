package undersong.shelf;

import java.time.Instant;
import java.util.List;
import undersong.reading.CorrectionEntry;

/**
 * Corrections said together: one step to take back.
 *
 * @param entries in the order they were said, at least one
 * @param inForce false once taken back
 */
public record Step(
    long id, String author, Instant saidAt, List<CorrectionEntry> entries, boolean inForce) {
  public Step {
    entries = List.copyOf(entries);
  }
}
