package undersong.reading;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;

/**
 * All facets of one recording at one revision: what is heard. Immutable.
 *
 * <p>A reading under construction holds the facets derived so far.
 */
public final class Reading {
  private final double durationSeconds;
  private final Map<Facet<?>, FacetValue> values;
  private final Map<Facet<?>, List<Correction>> unplaced;

  private Reading(
      double durationSeconds,
      Map<Facet<?>, FacetValue> values,
      Map<Facet<?>, List<Correction>> unplaced) {
    this.durationSeconds = durationSeconds;
    this.values = values;
    this.unplaced = unplaced;
  }

  /** A reading that holds nothing yet. */
  public static Reading empty(double durationSeconds) {
    if (!(durationSeconds > 0)) {
      throw new IllegalArgumentException(
          "A reading of %s s must have a positive length.".formatted(durationSeconds));
    }
    return new Reading(durationSeconds, Map.of(), Map.of());
  }

  public double durationSeconds() {
    return durationSeconds;
  }

  /** The value of a facet; throws where it has not been derived. */
  public <V extends FacetValue> V get(Facet<V> facet) {
    return find(facet)
        .orElseThrow(
            () -> new NoSuchElementException("Facet %s has not been derived.".formatted(facet)));
  }

  public <V extends FacetValue> Optional<V> find(Facet<V> facet) {
    return Optional.ofNullable(values.get(facet)).map(facet.valueType()::cast);
  }

  /** Corrections that no longer fit anything; listed, never dropped. */
  public List<Correction> unplaced() {
    return unplaced.values().stream().flatMap(List::stream).toList();
  }

  /** This reading with one facet set. */
  public <V extends FacetValue> Reading with(Facet<V> facet, Derived<V> derived) {
    Map<Facet<?>, FacetValue> moreValues = new LinkedHashMap<>(values);
    moreValues.put(facet, derived.value());
    Map<Facet<?>, List<Correction>> moreUnplaced = new LinkedHashMap<>(unplaced);
    moreUnplaced.put(facet, derived.unplaced());
    return new Reading(durationSeconds, moreValues, moreUnplaced);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Reading reading
        && durationSeconds == reading.durationSeconds
        && values.equals(reading.values)
        && unplaced().equals(reading.unplaced());
  }

  @Override
  public int hashCode() {
    return values.hashCode();
  }
}
