package undersong.technique;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.FacetValue;
import undersong.reading.Reading;

/**
 * Finds everything the given finders know in a reading: each is shown the facets it names, their
 * findings are calibrated, and where several names fit the same notes one is told. Immutable.
 *
 * <p><b>Out:</b> findings by their start. <b>Silence:</b> none.
 */
public final class Techniques {
  private final List<TechniqueFinder> finders;
  private final Calibration calibration;

  public Techniques(List<TechniqueFinder> finders, Calibration calibration) {
    this.finders = List.copyOf(finders);
    this.calibration = calibration;
  }

  public List<TechniqueFinder> finders() {
    return finders;
  }

  public List<Finding> in(Reading reading) {
    List<Finding> findings = new ArrayList<>();
    for (TechniqueFinder finder : finders) {
      if (finder.reads().stream().allMatch(facet -> reading.find(facet).isPresent())) {
        for (Finding finding : finder.find(shown(finder, reading))) {
          findings.add(calibrated(finder, finding));
        }
      }
    }
    List<Finding> told = new ArrayList<>(Precedence.settle(findings));
    told.sort(
        Comparator.comparingDouble((Finding finding) -> finding.span().startSeconds())
            .thenComparing(Finding::technique)
            .thenComparing(finding -> finding.span().endSeconds()));
    return List.copyOf(told);
  }

  private Finding calibrated(TechniqueFinder finder, Finding finding) {
    if (!finder.techniques().contains(finding.technique())) {
      throw new IllegalStateException(
          "%s found %s, which it does not name among its techniques."
              .formatted(finder.getClass().getSimpleName(), finding.technique().id()));
    }
    return finding.withProbability(
        calibration.probability(finding.technique(), finding.probability()));
  }

  private static Reading shown(TechniqueFinder finder, Reading reading) {
    Reading shown = Reading.empty(reading.durationSeconds());
    for (Facet<?> facet : finder.reads()) {
      shown = copied(facet, reading, shown);
    }
    for (Facet<?> facet : finder.alsoReads()) {
      shown = reading.find(facet).isPresent() ? copied(facet, reading, shown) : shown;
    }
    return shown;
  }

  private static <V extends FacetValue> Reading copied(Facet<V> facet, Reading from, Reading onto) {
    return onto.with(facet, Derived.of(from.get(facet)));
  }
}
