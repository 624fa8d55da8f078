package undersong.study;

import java.util.List;
import undersong.reading.Correction;
import undersong.shelf.StoredReading;

/**
 * The answer to a correction, or to taking one back.
 *
 * @param reading as it is now
 * @param changes what is heard differently, in the order of the facets
 * @param unplaced corrections in force that fit nothing
 */
public record Answer(StoredReading reading, List<FacetChange> changes, List<Correction> unplaced) {
  public Answer {
    changes = List.copyOf(changes);
    unplaced = List.copyOf(unplaced);
  }
}
