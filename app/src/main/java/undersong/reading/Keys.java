package undersong.reading;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import undersong.theory.Key;

/** Key regions in order, without gaps; empty where nothing tonal sounds. */
public record Keys(List<KeyRegion> regions) implements FacetValue {
  public Keys {
    regions = List.copyOf(regions);
  }

  public Optional<Key> keyAt(double seconds) {
    return regions.stream()
        .filter(region -> region.span().contains(seconds))
        .findFirst()
        .map(KeyRegion::key);
  }

  /** The key that holds longest in one region. */
  public Optional<Key> mainKey() {
    return regions.stream()
        .max(Comparator.comparingDouble(region -> region.span().lengthSeconds()))
        .map(KeyRegion::key);
  }

  @Override
  public Object essence() {
    return regions.stream().map(KeyRegion::essence).toList();
  }
}
