package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import undersong.bench.data.Chart;
import undersong.bench.metrics.ChordMetrics;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;

/** Writes down what is true of an arrangement. */
final class TruthWriter {
  private final Arrangement arrangement;
  private final Song song;
  private final Chart chart;
  private final TempoMap tempo;
  private final List<Harmony> harmony;

  private TruthWriter(Arrangement arrangement) {
    this.arrangement = arrangement;
    this.song = arrangement.song();
    this.chart = arrangement.chart();
    this.tempo = arrangement.tempo();
    this.harmony = arrangement.harmony();
  }

  /**
   * @param curve pitch of the lead as it was sung, every 10 ms; empty = read it off the notes
   */
  static Truth write(Arrangement arrangement, List<Double> curve, Staging staging) {
    return new TruthWriter(arrangement).truth(curve, staging);
  }

  private Truth truth(List<Double> curve, Staging staging) {
    double end = tempo.secondsAt(tempo.beats());
    List<Double> beats = new ArrayList<>();
    for (int b = 0; b < tempo.beats(); b++) {
      beats.add(tempo.secondsAt(b));
    }
    int[] starts = chart.barStarts();
    List<Double> downbeats = new ArrayList<>();
    List<Timed<KeyLabel>> keys = new ArrayList<>();
    List<Timed<String>> sections = new ArrayList<>();
    int sectionStart = 0;
    for (int b = 0; b < chart.bars().size(); b++) {
      downbeats.add(tempo.secondsAt(starts[b]));
      keys.add(
          new Timed<>(
              tempo.secondsAt(starts[b]),
              tempo.secondsAt(starts[b + 1]),
              chart.bars().get(b).key()));
      if (b + 1 == chart.bars().size() || chart.bars().get(b + 1).opensSection()) {
        sections.add(
            new Timed<>(
                tempo.secondsAt(starts[sectionStart]),
                tempo.secondsAt(starts[b + 1]),
                chart.bars().get(sectionStart).letter()));
        sectionStart = b + 1;
      }
    }
    boolean formKnown = sections.size() > 1;
    List<SungNote> melody = sung(arrangement.lead());
    Chart.Bar first = chart.bars().get(0);
    return new Truth(
        song.chartId(),
        arrangement.endSeconds(),
        0,
        first.compound() ? 3 * first.beats() + "/8" : first.beats() + "/4",
        60 * (tempo.beats() - 1) / (tempo.secondsAt(tempo.beats() - 1) - tempo.secondsAt(0)),
        song.swingRatio(),
        song.drift() > 0,
        beats,
        downbeats,
        ChordMetrics.join(keys),
        chords(end),
        changes(),
        bass(),
        melody,
        curve.isEmpty() ? curveOf(melody) : curve,
        song.sung(),
        sung(arrangement.secondVoice()),
        formKnown ? sections : List.of(),
        staging,
        techniques());
  }

  private List<Timed<String>> chords(double end) {
    List<Timed<String>> chords = new ArrayList<>();
    double silent = tempo.secondsAt(harmony.get(0).playedBeat());
    if (silent > 0) {
      chords.add(new Timed<>(0, silent, "N"));
    }
    for (Harmony h : harmony) {
      chords.add(
          new Timed<>(
              tempo.secondsAt(h.playedBeat()),
              Math.min(end, tempo.secondsAt(h.endBeat())),
              HarteChord.print(h.chord())));
    }
    return chords;
  }

  private List<Truth.ChordChange> changes() {
    return harmony.stream()
        .skip(1)
        .map(
            h ->
                new Truth.ChordChange(
                    tempo.secondsAt(h.playedBeat()), tempo.secondsAt(h.writtenBeat())))
        .toList();
  }

  private List<SungNote> bass() {
    return arrangement.parts().stream()
        .filter(p -> p.role() == Part.Role.BASS)
        .flatMap(p -> p.notes().stream())
        .map(
            n ->
                new SungNote(
                    tempo.secondsAt(n.startBeat()), tempo.secondsAt(n.endBeat()), n.pitch()))
        .toList();
  }

  private List<SungNote> sung(List<Chart.Note> notes) {
    return notes.stream()
        .map(
            n ->
                new SungNote(
                    tempo.secondsAt(n.startBeat()), tempo.secondsAt(n.endBeat()), n.midiPitch()))
        .toList();
  }

  private List<Double> curveOf(List<SungNote> melody) {
    Double[] hertz = new Double[(int) (arrangement.endSeconds() / Truth.CURVE_HOP_SECONDS) + 1];
    java.util.Arrays.fill(hertz, 0.0);
    for (SungNote note : melody) {
      int from = (int) Math.ceil(note.startSeconds() / Truth.CURVE_HOP_SECONDS);
      int to = (int) (note.endSeconds() / Truth.CURVE_HOP_SECONDS);
      for (int i = from; i <= to && i < hertz.length; i++) {
        hertz[i] = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
      }
    }
    return List.of(hertz);
  }

  /** What is planted for sure: key lifts, and stretches in which most chords come early. */
  private List<Timed<String>> techniques() {
    List<Timed<String>> planted = new ArrayList<>();
    int[] starts = chart.barStarts();
    for (int b = 1; b < chart.bars().size(); b++) {
      KeyLabel before = chart.bars().get(b - 1).key();
      KeyLabel after = chart.bars().get(b).key();
      int up = Math.floorMod(after.tonic() - before.tonic(), 12);
      if (before.mode().equals(after.mode()) && (up == 1 || up == 2)) {
        planted.add(
            new Timed<>(tempo.secondsAt(starts[b]), tempo.secondsAt(starts[b + 1]), "key-lift"));
      }
    }
    long early = harmony.stream().filter(h -> h.playedBeat() < h.writtenBeat()).count();
    if (early >= 4 && early * 2 >= harmony.size()) {
      planted.add(
          new Timed<>(tempo.secondsAt(0), tempo.secondsAt(tempo.beats()), "anticipated-changes"));
    }
    planted.addAll(arrangement.production().techniques());
    return planted;
  }
}
