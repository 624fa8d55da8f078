package undersong.bench.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import undersong.bench.metrics.BeatMetrics;
import undersong.bench.metrics.Calibration;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.ChordMetrics;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.Matching;
import undersong.bench.metrics.Overlap;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;
import undersong.bench.peers.Heard;
import undersong.bench.render.Truth;

/**
 * What was said with which probability, and how right it was, facet by facet. Beats and downbeats:
 * one statement a song, right by its F. Keys and chords: spans weighted by time (chords right where
 * root, triad and bass are, open fifths by root and openness). Notes: right where onset and pitch
 * match. Sections: right where both edges lie within 3 s.
 */
public final class Statements {
  private final Map<String, List<Calibration.Stated>> byFacet = new LinkedHashMap<>();

  public void add(Truth truth, Heard heard) {
    Heard.Sureness sure = heard.sureness();
    sure.beats().ifPresent(p -> say("beats", p, f(truth.beats(), beats(heard))));
    sure.downbeats().ifPresent(p -> say("downbeats", p, f(truth.downbeats(), downbeats(heard))));
    heard
        .tonality()
        .ifPresent(
            tonality -> {
              keys(truth, tonality.keys(), sure.keys());
              chords(truth, tonality.chords(), sure.chords());
            });
    heard
        .lines()
        .ifPresent(
            lines -> {
              notes("bass", truth.bass(), lines.bass(), sure.bass());
              notes("melody", truth.melody(), lines.melody(), sure.melody());
            });
    heard.sections().ifPresent(s -> sections(truth, s, sure.sections()));
  }

  private static List<Double> beats(Heard heard) {
    return heard.pulse().map(Heard.Pulse::beats).orElse(List.of());
  }

  private static List<Double> downbeats(Heard heard) {
    return heard.bars().map(Heard.Bars::downbeats).orElse(List.of());
  }

  private static double f(List<Double> reference, List<Double> estimated) {
    return BeatMetrics.score(
            BeatMetrics.trim(Scorer.array(reference)), BeatMetrics.trim(Scorer.array(estimated)))
        .f();
  }

  private void say(String facet, double probability, double right) {
    say(facet, probability, right, 1);
  }

  private void say(String facet, double probability, double right, double weight) {
    byFacet
        .computeIfAbsent(facet, f -> new ArrayList<>())
        .add(new Calibration.Stated(probability, right, weight));
  }

  /**
   * A statement on a key counts for the time that the truth speaks of; where only tonic and third
   * are known, only those count.
   */
  private void keys(Truth truth, List<Timed<KeyLabel>> keys, List<Double> probabilities) {
    if (truth.keys().isEmpty()) {
      return;
    }
    boolean named = Scorer.statesModes(truth);
    double from = truth.keys().get(0).startSeconds();
    double to = truth.keys().get(truth.keys().size() - 1).endSeconds();
    for (int i = 0; i < probabilities.size(); i++) {
      double start = Math.max(from, keys.get(i).startSeconds());
      double end = Math.min(to, keys.get(i).endSeconds());
      if (end > start) {
        List<Timed<KeyLabel>> one = List.of(new Timed<>(start, end, keys.get(i).value()));
        double right =
            Overlap.share(one, truth.keys(), KeyLabel.NONE, (e, r) -> isRight(e, r, named) ? 1 : 0);
        say("keys", probabilities.get(i), right, end - start);
      }
    }
  }

  private static boolean isRight(KeyLabel estimated, KeyLabel reference, boolean named) {
    return named ? estimated.equals(reference) : estimated.family().equals(reference.family());
  }

  private void chords(Truth truth, List<Timed<ChordCode>> chords, List<Double> probabilities) {
    List<Timed<ChordCode>> reference = Scorer.chordTruth(truth);
    for (int i = 0; i < probabilities.size(); i++) {
      List<Timed<ChordCode>> one = List.of(chords.get(i));
      double right =
          Overlap.share(
              one,
              reference,
              ChordCode.NONE,
              (e, r) -> Math.max(0, ChordMetrics.Level.TRIADS.withBass(r, e)));
      say("chords", probabilities.get(i), right, chords.get(i).lengthSeconds());
    }
  }

  private void notes(
      String facet, List<SungNote> reference, List<SungNote> notes, List<Double> probabilities) {
    int[] matched =
        Matching.maximum(
            notes.size(),
            reference.size(),
            (e, r) ->
                Math.abs(notes.get(e).startSeconds() - reference.get(r).startSeconds()) <= 0.05
                    && Math.abs(notes.get(e).midiPitch() - reference.get(r).midiPitch()) <= 0.5);
    for (int i = 0; i < probabilities.size(); i++) {
      say(facet, probabilities.get(i), matched[i] >= 0 ? 1 : 0);
    }
  }

  private void sections(Truth truth, List<Timed<String>> sections, List<Double> probabilities) {
    if (truth.sections().isEmpty()) {
      return;
    }
    for (int i = 0; i < probabilities.size(); i++) {
      Timed<String> section = sections.get(i);
      boolean start =
          truth.sections().stream()
              .anyMatch(s -> Math.abs(s.startSeconds() - section.startSeconds()) <= 3);
      boolean end =
          truth.sections().stream()
              .anyMatch(s -> Math.abs(s.endSeconds() - section.endSeconds()) <= 3);
      say("sections", probabilities.get(i), start && end ? 1 : 0);
    }
  }

  /** All that was said, facet by facet, in the order in which it was heard. */
  public Map<String, List<Calibration.Stated>> said() {
    Map<String, List<Calibration.Stated>> said = new LinkedHashMap<>();
    byFacet.forEach((facet, statements) -> said.put(facet, List.copyOf(statements)));
    return said;
  }

  Map<String, Calibration> calibrations() {
    Map<String, Calibration> calibrations = new LinkedHashMap<>();
    byFacet.forEach((facet, said) -> calibrations.put(facet, Calibration.of(said)));
    return calibrations;
  }
}
