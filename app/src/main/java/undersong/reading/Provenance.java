package undersong.reading;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What a reading was made with.
 *
 * @param featureVersion of the features it was derived from
 * @param estimatorVersion of the estimators that derived it
 * @param facetMilliseconds name of a facet to the time its last derivation took
 */
public record Provenance(
    String featureVersion, String estimatorVersion, Map<String, Double> facetMilliseconds) {
  public Provenance {
    facetMilliseconds =
        java.util.Collections.unmodifiableMap(new LinkedHashMap<>(facetMilliseconds));
  }

  /** Whether values made with the other may stand beside values made with this. */
  public boolean sameVersions(Provenance other) {
    return featureVersion.equals(other.featureVersion)
        && estimatorVersion.equals(other.estimatorVersion);
  }
}
