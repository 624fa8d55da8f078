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
 * @param sections letters
 * @param sureness stated probabilities, facet by facet
 * @param costs time taken and similar, by name
 */
public record Heard(
    Optional<Pulse> pulse,
    Optional<Bars> bars,
    Optional<Double> tuningCents,
    Optional<Tonality> tonality,
    Optional<Lines> lines,
    Optional<List<Timed<String>>> sections,
    Optional<Produced> produced,
    Optional<Loudness> loudness,
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
          Sureness.NONE,
          Map.of());

  /**
   * @param bpm of the whole song; empty where there is no pulse
   */
  public record Pulse(List<Double> beats, Optional<Double> bpm) {}

  /**
   * @param meter "4/4"
   */
  public record Bars(List<Double> downbeats, String meter) {}

  /** Keys and chords. */
  public record Tonality(List<Timed<KeyLabel>> keys, List<Timed<ChordCode>> chords) {}

  /**
   * @param curve pitch of the melody over time
   */
  public record Lines(List<SungNote> bass, List<SungNote> melody, PitchCurve curve) {}

  /** Stated probabilities: of beats and downbeats as a whole, and of each span or note in order. */
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

  /** Of the whole recording, after ITU-R BS.1770 and EBU Tech 3342. */
  public record Loudness(double integratedLufs, double rangeLu) {}

  public Heard withPulse(Pulse heard) {
    return new Heard(
        Optional.of(heard),
        bars,
        tuningCents,
        tonality,
        lines,
        sections,
        produced,
        loudness,
        sureness,
        costs);
  }

  public Heard withTonality(Tonality heard) {
    return new Heard(
        pulse,
        bars,
        tuningCents,
        Optional.of(heard),
        lines,
        sections,
        produced,
        loudness,
        sureness,
        costs);
  }

  public Heard withLines(Lines heard) {
    return new Heard(
        pulse,
        bars,
        tuningCents,
        tonality,
        Optional.of(heard),
        sections,
        produced,
        loudness,
        sureness,
        costs);
  }

  public Heard withSections(List<Timed<String>> heard) {
    return new Heard(
        pulse,
        bars,
        tuningCents,
        tonality,
        lines,
        Optional.of(heard),
        produced,
        loudness,
        sureness,
        costs);
  }

  public Heard withLoudness(Loudness heard) {
    return new Heard(
        pulse,
        bars,
        tuningCents,
        tonality,
        lines,
        sections,
        produced,
        Optional.of(heard),
        sureness,
        costs);
  }

  public Heard withCosts(Map<String, Double> taken) {
    return new Heard(
        pulse,
        bars,
        tuningCents,
        tonality,
        lines,
        sections,
        produced,
        loudness,
        sureness,
        Map.copyOf(taken));
  }
}
