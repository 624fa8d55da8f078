package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.feature.Features;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.FacetValue;
import undersong.reading.Keys;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.SampleReadings;
import undersong.reading.Tuning;
import undersong.study.Derivation.Basis;
import undersong.study.Derivation.Outcome;
import undersong.work.Cancellation;
import undersong.work.Progress;
import undersong.work.Trouble;

class DerivationTest {
  private static final Features FEATURES =
      StandInFeatures.silence("hash", SampleReadings.DURATION_SECONDS);
  private static final Correction TUNED = new Correction.TuningIs(4);

  /** What each facet will be heard as; tests change it between derivations. */
  private final Map<Facet<?>, FacetValue> hears = new HashMap<>();

  private final Derivation derivation = new Derivation(scripted());

  DerivationTest() {
    for (Facet<?> facet : Facet.IN_ORDER) {
      hears.put(facet, SampleReadings.full().get(facet));
    }
  }

  @Test
  void derivesEveryFacetAtFirst() {
    Outcome outcome = derive(Optional.empty(), Corrections.NONE);
    assertThat(outcome.ran()).containsExactlyInAnyOrderElementsOf(Facet.IN_ORDER);
    assertThat(outcome.reading()).isEqualTo(SampleReadings.full());
    assertThat(outcome.milliseconds().keySet())
        .containsExactlyElementsOf(Facet.IN_ORDER.stream().map(Facet::name).toList());
  }

  @Test
  void runsNothingWhereNothingWasSaid() {
    assertThat(derive(first(), Corrections.NONE).ran()).isEmpty();
  }

  @Test
  void aCorrectedFacetRunsAndStopsThereWhereItsAnswerStaysTheSame() {
    assertThat(derive(first(), said(1, TUNED)).ran()).containsExactly(Facet.TUNING);
  }

  @Test
  void whatReadsAChangedValueRuns() {
    Optional<Basis> before = first();
    hears.put(Facet.TUNING, new Tuning(4, 1));
    // These read the tuning; none of them comes out differently.
    assertThat(derive(before, said(1, TUNED)).ran())
        .containsExactlyInAnyOrder(
            Facet.TUNING,
            Facet.FORM,
            Facet.BASS,
            Facet.MELODY,
            Facet.CHORDS,
            Facet.VOICES,
            Facet.LINES);
  }

  @Test
  void aWobblingProbabilityWakesOnlyThoseWhoReadIt() {
    Optional<Basis> before = first();
    hears.put(Facet.BASS, lessSure(SampleReadings.full().get(Facet.BASS)));
    // Chords read the bass with its probability, keys and lines only its value.
    assertThat(
            derive(before, said(1, new Correction.NoBassOver(new undersong.time.Span(0, 1)))).ran())
        .containsExactlyInAnyOrder(Facet.BASS, Facet.CHORDS);
  }

  @Test
  void aWobblingProbabilityOfTheBeatsWakesNobody() {
    Optional<Basis> before = first();
    Beats beats = SampleReadings.beats();
    hears.put(
        Facet.BEATS,
        new Beats(beats.grid(), beats.tatumsPerBeat(), beats.swingRatio(), 0.1, List.of()));
    Outcome outcome = derive(before, said(1, new Correction.BeatAt(1)));
    assertThat(outcome.ran()).containsExactly(Facet.BEATS);
    assertThat(outcome.reading().get(Facet.BEATS).probability()).isEqualTo(0.1);
  }

  @Test
  void takingACorrectionBackWakesItsFacetAgain() {
    Corrections both = said(1, TUNED, TUNED);
    Reading reading = derive(first(), both).reading();
    assertThat(derive(Optional.of(new Basis(reading, both)), said(1, TUNED)).ran())
        .containsExactly(Facet.TUNING);
  }

  @Test
  void anEstimatorSeesNothingThatCouldNotWakeIt() {
    Derivation curious =
        new Derivation(
            scripted()
                .with(
                    Facet.KEYS,
                    (features, earlier, corrections) -> {
                      earlier.get(Facet.HARMONY);
                      return Derived.of(new Keys(List.of()));
                    }));
    assertThatThrownBy(
            () ->
                curious.derive(
                    FEATURES,
                    Optional.empty(),
                    Corrections.NONE,
                    Progress.SILENT,
                    new Cancellation()))
        .isInstanceOf(NoSuchElementException.class)
        .hasMessageContaining("harmony");
  }

  @Test
  void anEstimatorHearsItsOwnCorrectionsAndThoseItHeeds() {
    List<Corrections> given = new ArrayList<>();
    Correction.KeyOver key =
        new Correction.KeyOver(
            new undersong.time.Span(0, 2), SampleReadings.keys().regions().get(0).key());
    Derivation heeding =
        new Derivation(
            scripted()
                .with(
                    Facet.CHORDS,
                    (features, earlier, corrections) -> {
                      given.add(corrections);
                      return Derived.of(SampleReadings.chords());
                    },
                    Facet.KEYS));
    Outcome outcome =
        heeding.derive(FEATURES, first(), said(7, TUNED, key), Progress.SILENT, new Cancellation());
    assertThat(outcome.ran()).containsExactlyInAnyOrder(Facet.TUNING, Facet.CHORDS, Facet.KEYS);
    assertThat(given.get(0).entries())
        .containsExactly(new CorrectionEntry(8, "me", Instant.EPOCH, key));
  }

  @Test
  void whatFitsNowhereStaysListedWhenItsFacetDoesNotRun() {
    Correction lost = new Correction.TuningIs(99);
    Reading reading =
        SampleReadings.full()
            .with(Facet.TUNING, new Derived<>(new Tuning(-7.5, 0.9), List.of(lost)));
    Basis basis = new Basis(reading, Corrections.NONE);
    Outcome outcome = derive(Optional.of(basis), said(1, new Correction.BeatAt(1)));
    assertThat(outcome.ran()).containsExactly(Facet.BEATS);
    assertThat(outcome.reading().unplaced()).containsExactly(lost);
  }

  @Test
  void stopsOnRequestBetweenFacets() {
    Cancellation cancellation = new Cancellation();
    List<String> stages = new ArrayList<>();
    assertThatThrownBy(
            () ->
                derivation.derive(
                    FEATURES,
                    Optional.empty(),
                    Corrections.NONE,
                    (stage, share) -> {
                      stages.add(stage);
                      cancellation.cancel();
                    },
                    cancellation))
        .isInstanceOf(Trouble.Cancelled.class);
    assertThat(stages).containsOnly("hearing tuning");
  }

  private Estimators scripted() {
    Estimators estimators = Estimators.silent();
    for (Facet<?> facet : Facet.IN_ORDER) {
      estimators = scripted(estimators, facet);
    }
    return estimators;
  }

  private <V extends FacetValue> Estimators scripted(Estimators estimators, Facet<V> facet) {
    return estimators.with(
        facet, (features, earlier, said) -> Derived.of(facet.valueType().cast(hears.get(facet))));
  }

  private Optional<Basis> first() {
    Reading reading = derive(Optional.empty(), Corrections.NONE).reading();
    return Optional.of(new Basis(reading, Corrections.NONE));
  }

  private Outcome derive(Optional<Basis> basis, Corrections said) {
    return derivation.derive(FEATURES, basis, said, Progress.SILENT, new Cancellation());
  }

  private static Corrections said(long firstId, Correction... corrections) {
    List<CorrectionEntry> entries = new ArrayList<>();
    for (Correction correction : corrections) {
      entries.add(new CorrectionEntry(firstId + entries.size(), "me", Instant.EPOCH, correction));
    }
    return new Corrections(entries);
  }

  private static Bass lessSure(Bass bass) {
    return new Bass(
        bass.notes().stream()
            .map(note -> new NoteEvent(note.span(), note.midiPitch(), 0.01))
            .toList());
  }
}
