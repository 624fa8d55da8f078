package undersong.shelf;

import java.util.List;
import undersong.reading.Provenance;
import undersong.reading.Reading;

/**
 * A reading as it lies on the shelf.
 *
 * @param revision from 1; rises with every change
 * @param inForce ids of the corrections it was derived with, rising
 */
public record StoredReading(
    long songId, int revision, List<Long> inForce, Provenance provenance, Reading reading) {
  public StoredReading {
    inForce = List.copyOf(inForce);
  }
}
