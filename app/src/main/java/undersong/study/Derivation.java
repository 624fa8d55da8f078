package undersong.study;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import undersong.feature.Features;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.FacetValue;
import undersong.reading.Reading;
import undersong.study.Estimators.Task;
import undersong.work.Cancellation;
import undersong.work.Progress;

/**
 * Derives the facets in their order, and stops where the answer stays the same: a facet runs when
 * corrections it listens to have changed, or when a facet it reads has come out differently. An
 * input read for its value alone has come out differently only if its essence has.
 *
 * <p>An estimator is shown the facets it declares as inputs and the corrections it listens to, and
 * nothing else: what could wake it and what it can see are the same.
 */
final class Derivation {
  private final Estimators estimators;

  Derivation(Estimators estimators) {
    this.estimators = estimators;
  }

  /** A reading, and the corrections it was derived with. */
  record Basis(Reading reading, Corrections said) {}

  /**
   * @param ran facets that were derived anew
   * @param milliseconds name of each facet that ran to the time it took
   */
  record Outcome(Reading reading, Set<Facet<?>> ran, Map<String, Double> milliseconds) {}

  /**
   * @param basis what the values that are still good are taken from; empty to derive everything
   */
  Outcome derive(
      Features features,
      Optional<Basis> basis,
      Corrections said,
      Progress progress,
      Cancellation cancellation) {
    return derive(features, basis, said, Facet.IN_ORDER, progress, cancellation);
  }

  /** As {@link #derive}, but no further than one facet: the others below it are left out. */
  Reading deriveThrough(Facet<?> last, Features features, Basis basis, Corrections said) {
    List<Facet<?>> facets = Facet.IN_ORDER.subList(0, Facet.IN_ORDER.indexOf(last) + 1);
    return derive(features, Optional.of(basis), said, facets, Progress.SILENT, new Cancellation())
        .reading();
  }

  private Outcome derive(
      Features features,
      Optional<Basis> basis,
      Corrections said,
      List<Facet<?>> facets,
      Progress progress,
      Cancellation cancellation) {
    Reading reading = Reading.empty(features.durationSeconds());
    Set<Facet<?>> newValue = new HashSet<>();
    Set<Facet<?>> newProbability = new HashSet<>();
    Map<String, Double> milliseconds = new LinkedHashMap<>();
    Set<Facet<?>> ran = new HashSet<>();
    for (Facet<?> facet : facets) {
      cancellation.check();
      Task<?> task = estimators.of(facet);
      boolean wakes =
          basis.isEmpty()
              || basis.get().reading().find(facet).isEmpty()
              || !ids(heard(task, basis.get().said())).equals(ids(heard(task, said)))
              || facet.inputs().stream()
                  .anyMatch(
                      input ->
                          newValue.contains(input.facet())
                              || (input.withProbability()
                                  && newProbability.contains(input.facet())));
      if (!wakes) {
        reading = copied(facet, basis.get().reading(), reading);
        continue;
      }
      progress.at("hearing " + facet, 0);
      long start = System.nanoTime();
      reading = run(task, features, reading, heard(task, said));
      milliseconds.put(facet.name(), (System.nanoTime() - start) / 1e6);
      progress.at("hearing " + facet, 1);
      ran.add(facet);
      FacetValue after = reading.find(facet).orElseThrow();
      Optional<FacetValue> before = basis.flatMap(b -> b.reading().find(facet));
      if (!before.map(FacetValue::essence).equals(Optional.of(after.essence()))) {
        newValue.add(facet);
      }
      if (!before.equals(Optional.of(after))) {
        newProbability.add(facet);
      }
    }
    return new Outcome(reading, ran, milliseconds);
  }

  private static <V extends FacetValue> Reading run(
      Task<V> task, Features features, Reading reading, Corrections heard) {
    Reading inputs = Reading.empty(reading.durationSeconds());
    for (Facet.Input input : task.facet().inputs()) {
      inputs = copied(input.facet(), reading, inputs);
    }
    return reading.with(task.facet(), task.estimator().estimate(features, inputs, heard));
  }

  private static <V extends FacetValue> Reading copied(Facet<V> facet, Reading from, Reading onto) {
    var unplaced = from.unplaced().stream().filter(c -> c.facet() == facet).toList();
    return onto.with(facet, new Derived<>(from.get(facet), unplaced));
  }

  private static Corrections heard(Task<?> task, Corrections said) {
    return new Corrections(
        said.entries().stream().filter(entry -> task.hears(entry.correction().facet())).toList());
  }

  private static List<Long> ids(Corrections said) {
    return said.entries().stream().map(CorrectionEntry::id).toList();
  }
}
