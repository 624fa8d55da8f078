package undersong.technique;

import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;

/**
 * Finds one technique, or a close family of them, in a reading.
 *
 * <p><b>In:</b> a reading that holds the facets named by {@link #reads()}, and no others.
 *
 * <p><b>Out:</b> one finding per occurrence, in any order; of the techniques named by {@link
 * #techniques()} only. Equal readings give equal findings.
 *
 * <p><b>Silence</b>, no pulse, no key: none, never an error.
 */
public interface TechniqueFinder {
  Set<Technique> techniques();

  Set<Facet<?>> reads();

  List<Finding> find(Reading reading);
}
