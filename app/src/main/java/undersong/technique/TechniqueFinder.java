package undersong.technique;

import java.util.List;
import java.util.Set;
import undersong.reading.Facet;
import undersong.reading.Reading;

/**
 * Finds one technique, or a close family of them, in a reading.
 *
 * <p><b>In:</b> a reading that holds the facets named by {@link #reads()}, those of {@link
 * #alsoReads()} that there are, and no others.
 *
 * <p><b>Out:</b> one finding per occurrence, in any order; of the techniques named by {@link
 * #techniques()} only. Equal readings give equal findings.
 *
 * <p><b>Silence</b>, no pulse, no key: none, never an error.
 */
public interface TechniqueFinder {
  /** What it may find. */
  Set<Technique> techniques();

  /** Facets it cannot do without: it does not run where one is missing. */
  Set<Facet<?>> reads();

  /** Facets it is shown where they are there, and does without where they are not. */
  default Set<Facet<?>> alsoReads() {
    return Set.of();
  }

  List<Finding> find(Reading reading);
}
