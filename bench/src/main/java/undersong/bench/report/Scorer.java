package undersong.bench.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import undersong.bench.metrics.BeatMetrics;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.ChordMetrics;
import undersong.bench.metrics.FormMetrics;
import undersong.bench.metrics.HarmonyMetrics;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.KeyMetrics;
import undersong.bench.metrics.MelodyMetrics;
import undersong.bench.metrics.NoteMetrics;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.TempoMetrics;
import undersong.bench.metrics.Timed;
import undersong.bench.peers.Heard;
import undersong.bench.render.Truth;

/** Scores what was heard in one song against its truth: one number per metric, by name. */
final class Scorer {
  /** Other charts state a tonic alone; their mode is read off the tonic's chords. */
  private static final Pattern MODE_STATED = Pattern.compile("own-|pop909-|plant-|test-");

  private final Truth truth;
  private final Heard heard;
  private final Map<String, Double> scores = new LinkedHashMap<>();

  private Scorer(Truth truth, Heard heard) {
    this.truth = truth;
    this.heard = heard;
  }

  /** Metrics that apply to this song and this listener, in the order of the page. */
  static Map<String, Double> score(Truth truth, Heard heard) {
    Scorer scorer = new Scorer(truth, heard);
    scorer.beats();
    scorer.keys();
    heard.tonality().ifPresent(tonality -> scorer.chords(tonality.chords()));
    heard.lines().ifPresent(lines -> scorer.bass(lines.bass()));
    heard.lines().ifPresent(scorer::melody);
    heard.sections().ifPresent(scorer::form);
    heard.produced().ifPresent(p -> ProductionScorer.score(truth, p, scorer.scores));
    scorer.scores.putAll(heard.costs());
    scorer.scores.values().removeIf(v -> !Double.isFinite(v));
    return scorer.scores;
  }

  /** Distance from what the reference meter reads; nothing for the meter itself. */
  static Map<String, Double> loudness(Optional<Heard.Loudness> metered, Heard heard) {
    boolean comparable =
        metered.isPresent() && heard.loudness().isPresent() && !metered.equals(heard.loudness());
    return !comparable
        ? Map.of()
        : Map.of(
            "loudness.integratedErrorLu",
            Math.abs(metered.get().integratedLufs() - heard.loudness().get().integratedLufs()),
            "loudness.rangeErrorLu",
            Math.abs(metered.get().rangeLu() - heard.loudness().get().rangeLu()));
  }

  static double[] array(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }

  static List<Timed<ChordCode>> chordTruth(Truth truth) {
    return truth.chords().stream()
        .map(c -> new Timed<>(c.startSeconds(), c.endSeconds(), HarteChord.parse(c.value())))
        .toList();
  }

  private void beats() {
    heard.pulse().ifPresent(this::pulse);
    heard.bars().ifPresent(this::bars);
    heard
        .tuningCents()
        .ifPresent(c -> scores.put("tuning.errorCents", Math.abs(c - truth.tuningCents())));
  }

  private void pulse(Heard.Pulse pulse) {
    double[] reference = BeatMetrics.trim(array(truth.beats()));
    double[] estimated = BeatMetrics.trim(array(pulse.beats()));
    BeatMetrics.Continuity runs = BeatMetrics.continuity(reference, estimated);
    scores.put("beats.f", BeatMetrics.score(reference, estimated).f());
    scores.put("beats.fAnyLevel", BeatMetrics.fAtAnyLevel(reference, estimated));
    scores.put("beats.cemgil", BeatMetrics.cemgil(reference, estimated));
    scores.put("beats.cmlt", runs.correctTotal());
    scores.put("beats.amlt", runs.anyTotal());
    scores.put("beats.informationGain", BeatMetrics.informationGain(reference, estimated));
    double bpm = pulse.bpm().orElse(0.0);
    scores.put("tempo.accuracy1", TempoMetrics.accuracy1(truth.bpm(), bpm) ? 1.0 : 0);
    scores.put("tempo.accuracy2", TempoMetrics.accuracy2(truth.bpm(), bpm) ? 1.0 : 0);
  }

  private void bars(Heard.Bars bars) {
    double[] reference = BeatMetrics.trim(array(truth.downbeats()));
    double[] estimated = BeatMetrics.trim(array(bars.downbeats()));
    scores.put("downbeats.f", BeatMetrics.score(reference, estimated).f());
    scores.put("meter.right", bars.meter().equals(truth.meter()) ? 1.0 : 0);
  }

  private void keys() {
    heard
        .tonality()
        .map(Heard.Tonality::keys)
        .ifPresent(
            keys -> {
              scores.put("key.weighted", KeyMetrics.weightedByTime(truth.keys(), keys));
              if (statesModes(truth)) {
                scores.put("key.byName", KeyMetrics.sameNameByTime(truth.keys(), keys));
              }
              scores.put("key.changesPlaced", changesPlaced(keys));
            });
  }

  /** Whether the truth knows modes, not only tonic and third. */
  static boolean statesModes(Truth truth) {
    return MODE_STATED.matcher(truth.id()).lookingAt();
  }

  /** Of the true key changes, the share with an estimated change to that tonic within two bars. */
  private double changesPlaced(List<Timed<KeyLabel>> estimated) {
    double barSeconds = barSeconds();
    int changes = 0;
    int placed = 0;
    for (int i = 1; i < truth.keys().size(); i++) {
      Timed<KeyLabel> change = truth.keys().get(i);
      changes++;
      boolean found =
          java.util.stream.IntStream.range(1, estimated.size())
              .mapToObj(estimated::get)
              .anyMatch(
                  e ->
                      e.value().tonic() == change.value().tonic()
                          && Math.abs(e.startSeconds() - change.startSeconds()) <= 2 * barSeconds);
      placed += found ? 1 : 0;
    }
    return changes == 0 ? Double.NaN : (double) placed / changes;
  }

  private double barSeconds() {
    List<Double> bars = truth.downbeats();
    return bars.size() < 2 ? 2 : (bars.get(bars.size() - 1) - bars.get(0)) / (bars.size() - 1);
  }

  private void chords(List<Timed<ChordCode>> estimated) {
    List<Timed<ChordCode>> reference = chordTruth(truth);
    scores.put("chords.root", ChordMetrics.overlap(reference, estimated, ChordMetrics.Level.ROOT));
    scores.put(
        "chords.majmin", ChordMetrics.overlap(reference, estimated, ChordMetrics.Level.MAJMIN));
    scores.put(
        "chords.majminBass",
        ChordMetrics.overlapWithBass(reference, estimated, ChordMetrics.Level.MAJMIN));
    scores.put(
        "chords.triads", ChordMetrics.overlap(reference, estimated, ChordMetrics.Level.TRIADS));
    scores.put(
        "chords.sevenths", ChordMetrics.overlap(reference, estimated, ChordMetrics.Level.SEVENTHS));
    scores.put(
        "chords.mirex", ChordMetrics.overlap(reference, estimated, ChordMetrics.Level.MIREX));
    scores.put("chords.segmentation", ChordMetrics.segmentation(reference, estimated).both());
    scores.put("chords.invertedRecall", ChordMetrics.invertedRecall(reference, estimated));
    HarmonyMetrics.OpenHarmony open = HarmonyMetrics.openHarmony(reference, estimated);
    scores.put("open.told", open.told());
    scores.put("open.falselyOpen", open.falselyOpen());
    HarmonyMetrics.Arrival arrival =
        HarmonyMetrics.arrival(
            truth.changes().stream()
                .map(c -> new HarmonyMetrics.Change(c.seconds(), c.beatSeconds()))
                .toList(),
            ChordMetrics.join(estimated).stream().mapToDouble(Timed::startSeconds).toArray(),
            60 / truth.bpm());
    scores.put("arrival.medianBeats", arrival.medianBeats());
    scores.put("arrival.worstBeats", arrival.worstBeats());
    scores.put("arrival.earlyTold", arrival.earlyTold());
  }

  private void bass(List<SungNote> estimated) {
    scores.put(
        "bass.f", NoteMetrics.score(truth.bass(), estimated, NoteMetrics.Demand.ONSET_PITCH).f());
    scores.put(
        "bass.fChroma",
        NoteMetrics.score(folded(truth.bass()), folded(estimated), NoteMetrics.Demand.ONSET_PITCH)
            .f());
  }

  private static List<SungNote> folded(List<SungNote> notes) {
    List<SungNote> folded = new ArrayList<>();
    for (SungNote n : notes) {
      folded.add(new SungNote(n.startSeconds(), n.endSeconds(), n.pitchClass()));
    }
    return folded;
  }

  private void melody(Heard.Lines lines) {
    if (truth.melody().isEmpty()) {
      return;
    }
    MelodyMetrics melody = MelodyMetrics.of(truth.pitchCurve(), lines.curve());
    scores.put("melody.rawPitch", melody.rawPitch());
    scores.put("melody.rawChroma", melody.rawChroma());
    scores.put("melody.voicingRecall", melody.voicingRecall());
    scores.put("melody.falseAlarms", melody.falseAlarms());
    scores.put("melody.overall", melody.overall());
    scores.put(
        "melody.notesF",
        NoteMetrics.score(truth.melody(), lines.melody(), NoteMetrics.Demand.ONSET_PITCH).f());
  }

  private void form(List<Timed<String>> estimated) {
    if (truth.sections().isEmpty()) {
      return;
    }
    scores.put(
        "form.f05Trimmed", FormMetrics.boundaries(truth.sections(), estimated, 0.5, true).f());
    scores.put("form.f3Trimmed", FormMetrics.boundaries(truth.sections(), estimated, 3, true).f());
    scores.put("form.pairwiseF", FormMetrics.pairwise(truth.sections(), estimated).f());
    scores.put("form.entropyF", FormMetrics.entropies(truth.sections(), estimated).f());
  }
}
