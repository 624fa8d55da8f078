package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import undersong.bench.metrics.BeatMetrics;
import undersong.bench.metrics.ChordMetrics;
import undersong.bench.metrics.FormMetrics;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyMetrics;
import undersong.bench.metrics.MelodyMetrics;
import undersong.bench.metrics.NoteMetrics;
import undersong.bench.metrics.Timed;
import undersong.bench.peers.Heard;
import undersong.bench.peers.Program;
import undersong.bench.render.Truth;
import undersong.estimate.Estimator;
import undersong.estimate.beat.PulseChainBeatTracker;
import undersong.estimate.chord.TatumChordRecognizer;
import undersong.estimate.form.BlockMatchForm;
import undersong.estimate.form.FormSettings;
import undersong.estimate.key.ChordKeyEstimator;
import undersong.estimate.key.KeySettings;
import undersong.estimate.melody.HeardMelody;
import undersong.estimate.melody.MelodySettings;
import undersong.estimate.meter.BarChainMeterEstimator;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.reading.Bass;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.FacetValue;
import undersong.reading.Form;
import undersong.reading.Melody;
import undersong.reading.Reading;

/**
 * What each kind of evidence is worth: every facet is derived again with one kind left out, all
 * else as the program has it, and scored. What is derived from the facet afterwards is not derived
 * again.
 */
public final class Ablations {
  private static final String ALL = "all evidence";

  private final Map<String, Map<String, List<Double>>> scores = new LinkedHashMap<>();

  private Ablations() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets
   */
  public static void main(String[] arguments) throws IOException {
    Ablations ablations = new Ablations();
    TuningSong.eachOf(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        (set, truth, id, studied, features) -> {
          String copy = id.contains("worn") ? "worn" : "clean";
          new Copy(ablations, copy, truth, studied.stored().reading(), features).score();
        });
    ablations.print();
  }

  private void add(String figure, String without, String copy, double score) {
    scores
        .computeIfAbsent(figure + " | " + without, key -> new LinkedHashMap<>())
        .computeIfAbsent(copy, key -> new ArrayList<>())
        .add(score);
  }

  private void print() {
    System.out.println("| figure | left out | clean | worn |\n| --- | --- | --- | --- |");
    scores.forEach(
        (row, copies) ->
            System.out.printf(
                "| %s | %s | %s |%n", row, mean(copies.get("clean")), mean(copies.get("worn"))));
  }

  private static String mean(List<Double> of) {
    return of == null
        ? "-"
        : "%.3f (%d)"
            .formatted(of.stream().mapToDouble(d -> d).average().orElse(Double.NaN), of.size());
  }

  /** One recording, heard. */
  private record Copy(
      Ablations into, String copy, Truth truth, Reading reading, Features features) {
    void score() {
      beats();
      bars();
      chords();
      keys();
      if (!truth.curve().isEmpty() && !truth.melody().isEmpty()) {
        melody();
      }
      if (!truth.sections().isEmpty()) {
        form();
      }
    }

    private void beats() {
      PulseChainBeatTracker beats = new PulseChainBeatTracker();
      pulse(ALL, beats, features);
      pulse("what the ear hears", beats, LeftOut.ear(features));
      pulse("kick and snare told apart", beats, LeftOut.strokes(features));
    }

    private void pulse(String without, PulseChainBeatTracker beats, Features left) {
      Heard heard = derived(Facet.BEATS, beats, left, reading);
      add("beats F", without, f(truth.beats(), heard.pulse().orElseThrow().beats()));
    }

    private void bars() {
      BarChainMeterEstimator bars = new BarChainMeterEstimator();
      downbeats(ALL, bars, features);
      downbeats("the ear's downbeats", bars, LeftOut.heads(features, EarHead.BEAT));
      downbeats("the ear's meter", bars, LeftOut.heads(features, EarHead.METER));
      downbeats("what the ear hears", bars, LeftOut.ear(features));
    }

    private void downbeats(String without, BarChainMeterEstimator bars, Features left) {
      Heard heard = derived(Facet.METER, bars, left, reading);
      add("downbeats F", without, f(truth.downbeats(), heard.bars().orElseThrow().downbeats()));
    }

    private void chords() {
      TatumChordRecognizer chords = new TatumChordRecognizer();
      chord(ALL, chords, features, reading);
      chord("the ear's roots", chords, LeftOut.heads(features, EarHead.CHORD_ROOT), reading);
      chord("the ear's qualities", chords, LeftOut.heads(features, EarHead.CHORD_QUALITY), reading);
      chord(
          "the ear's pitch classes",
          chords,
          LeftOut.heads(features, EarHead.PITCH_CLASSES),
          reading);
      chord("the ear's chord bass", chords, LeftOut.heads(features, EarHead.CHORD_BASS), reading);
      chord("what the ear hears", chords, LeftOut.ear(features), reading);
      chord("the bass line", chords, features, with(Facet.BASS, new Bass(List.of())));
      chord("the tune", chords, features, with(Facet.MELODY, Melody.NONE));
      chord("repeats sharing evidence", chords, features, with(Facet.FORM, new Form(List.of())));
      chord("the key around", TatumChordRecognizer.outsideKeys(), features, reading);
    }

    private void chord(String without, TatumChordRecognizer chords, Features left, Reading from) {
      var told = derived(Facet.CHORDS, chords, left, from).tonality().orElseThrow().chords();
      var reference =
          truth.chords().stream()
              .map(c -> new Timed<>(c.startSeconds(), c.endSeconds(), HarteChord.parse(c.value())))
              .toList();
      add(
          "chords, major and minor",
          without,
          ChordMetrics.overlap(reference, told, ChordMetrics.Level.MAJMIN));
      add(
          "chords, sevenths",
          without,
          ChordMetrics.overlap(reference, told, ChordMetrics.Level.SEVENTHS));
    }

    private void keys() {
      ChordKeyEstimator keys = new ChordKeyEstimator(KeySettings.DEFAULTS);
      key(ALL, keys, features, reading);
      key("the ear's key", keys, LeftOut.heads(features, EarHead.KEY), reading);
      key("the form", keys, features, with(Facet.FORM, new Form(List.of())));
      key("the tune", keys, features, with(Facet.MELODY, Melody.NONE));
    }

    private void key(String without, ChordKeyEstimator keys, Features left, Reading from) {
      var told = derived(Facet.KEYS, keys, left, from).tonality().orElseThrow().keys();
      add("key, weighted", without, KeyMetrics.weightedByTime(truth.keys(), told));
    }

    private void melody() {
      tune(ALL, features);
      tune("whether a lead sounds", LeftOut.heads(features, EarHead.VOICING));
      tune("onsets of notes", LeftOut.heads(features, EarHead.NOTE_ONSET));
      tune("held notes", LeftOut.heads(features, EarHead.NOTE_SUSTAIN));
    }

    private void tune(String without, Features left) {
      Heard.Lines lines =
          derived(Facet.MELODY, new HeardMelody(MelodySettings.DEFAULTS), left, reading)
              .lines()
              .orElseThrow();
      add(
          "tune, overall accuracy",
          without,
          MelodyMetrics.of(truth.pitchCurve(), lines.curve()).overall());
      add(
          "notes of the tune F",
          without,
          NoteMetrics.score(truth.melody(), lines.melody(), NoteMetrics.Demand.ONSET_PITCH).f());
    }

    private void form() {
      FormSettings standard = FormSettings.DEFAULTS;
      sections(ALL, standard, features);
      sections("what the ear hears", standard, LeftOut.ear(features));
      sections("the ear's boundaries", standard, LeftOut.heads(features, EarHead.BOUNDARY));
      List<Double> silent = new ArrayList<>(standard.boundaryWeights());
      silent.set(1, 0.0);
      sections("changes of texture", standard.withBoundaryWeights(silent), features);
      sections("the tune", standard, LeftOut.heads(features, EarHead.LEAD, EarHead.VOICING));
      double cost = standard.sectionCost();
      sections("copies", standard.withCosts(standard.lengthWeight(), 0, cost), features);
      sections("usual lengths", standard.withCosts(0, standard.repetitionWeight(), cost), features);
    }

    private void sections(String without, FormSettings settings, Features left) {
      var told =
          derived(Facet.FORM, new BlockMatchForm(settings), left, reading).sections().orElseThrow();
      add(
          "boundaries F, 0.5 s",
          without,
          FormMetrics.boundaries(truth.sections(), told, 0.5, true).f());
    }

    private void add(String figure, String without, double score) {
      into.add(figure, without, copy, score);
    }

    private <V extends FacetValue> Reading with(Facet<V> facet, V value) {
      return reading.with(facet, Derived.of(value));
    }

    private <V extends FacetValue> Heard derived(
        Facet<V> facet, Estimator<V> estimator, Features left, Reading from) {
      return Program.of(reading.with(facet, estimator.estimate(left, from, Corrections.NONE)));
    }

    private static double f(List<Double> reference, List<Double> told) {
      return BeatMetrics.score(trimmed(reference), trimmed(told)).f();
    }

    private static double[] trimmed(List<Double> seconds) {
      return BeatMetrics.trim(seconds.stream().mapToDouble(s -> s).toArray());
    }
  }
}
