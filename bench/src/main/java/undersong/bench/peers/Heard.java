package undersong.bench.peers;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.PitchCurve;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;

/**
 * What somebody heard in a recording. An empty Optional = this one does not try; an empty list = it
 * tried and heard nothing.
 *
 * @param meter "4/4"
 * @param sureness stated probabilities, facet by facet
 * @param costs seconds taken and similar, by name
 */
public record Heard(
    Optional<List<Double>> beats,
    Optional<List<Double>> downbeats,
    Optional<Double> bpm,
    Optional<String> meter,
    Optional<Double> tuningCents,
    Optional<List<Timed<KeyLabel>>> keys,
    Optional<List<Timed<ChordCode>>> chords,
    Optional<List<SungNote>> bass,
    Optional<List<SungNote>> melody,
    Optional<PitchCurve> curve,
    Optional<List<Timed<String>>> sections,
    Optional<List<Timed<String>>> techniques,
    Sureness sureness,
    Map<String, Double> costs) {
  public static final Heard NOTHING =
      new Heard(
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Sureness.NONE,
          Map.of());

  /** Stated probabilities: of the beats as a whole, and of each span or note in its order. */
  public record Sureness(
      Optional<Double> beats,
      Optional<Double> downbeats,
      List<Double> keys,
      List<Double> chords,
      List<Double> bass,
      List<Double> melody,
      List<Double> sections) {
    public static final Sureness NONE =
        new Sureness(
            Optional.empty(),
            Optional.empty(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of());
  }

  public Heard withBeats(List<Double> seconds) {
    return new Heard(
        Optional.of(seconds),
        downbeats,
        bpm,
        meter,
        tuningCents,
        keys,
        chords,
        bass,
        melody,
        curve,
        sections,
        techniques,
        sureness,
        costs);
  }

  public Heard withBpm(double value) {
    return new Heard(
        beats,
        downbeats,
        Optional.of(value),
        meter,
        tuningCents,
        keys,
        chords,
        bass,
        melody,
        curve,
        sections,
        techniques,
        sureness,
        costs);
  }

  public Heard withHarmony(List<Timed<KeyLabel>> newKeys, List<Timed<ChordCode>> newChords) {
    return new Heard(
        beats,
        downbeats,
        bpm,
        meter,
        tuningCents,
        Optional.of(newKeys),
        Optional.of(newChords),
        bass,
        melody,
        curve,
        sections,
        techniques,
        sureness,
        costs);
  }

  public Heard withSections(List<Timed<String>> newSections) {
    return new Heard(
        beats,
        downbeats,
        bpm,
        meter,
        tuningCents,
        keys,
        chords,
        bass,
        melody,
        curve,
        Optional.of(newSections),
        techniques,
        sureness,
        costs);
  }

  public Heard withCosts(Map<String, Double> newCosts) {
    return new Heard(
        beats,
        downbeats,
        bpm,
        meter,
        tuningCents,
        keys,
        chords,
        bass,
        melody,
        curve,
        sections,
        techniques,
        sureness,
        Map.copyOf(newCosts));
  }
}
