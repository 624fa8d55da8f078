package undersong.study;

import java.util.List;
import undersong.reading.Facet;

/**
 * What a facet says differently now.
 *
 * @param before stretches that no longer stand
 * @param after stretches that stand in their place
 */
public record FacetChange(Facet<?> facet, List<Stretch> before, List<Stretch> after) {
  public FacetChange {
    before = List.copyOf(before);
    after = List.copyOf(after);
  }
}
