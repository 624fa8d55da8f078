package undersong.reading;

import java.util.List;

/**
 * What an estimator gives back: the facet's value, and the corrections it could not place.
 *
 * @param unplaced corrections against this facet that fit nothing; never dropped silently
 */
public record Derived<V extends FacetValue>(V value, List<Correction> unplaced) {
  public Derived {
    unplaced = List.copyOf(unplaced);
  }

  public static <V extends FacetValue> Derived<V> of(V value) {
    return new Derived<>(value, List.of());
  }
}
