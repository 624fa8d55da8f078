package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import undersong.bench.data.Chart;
import undersong.bench.metrics.ChordMetrics;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;

/** A chart arranged for a band: who plays what, when it sounds, and what is true of it. */
final class Arrangement {
  private static final int[] LEADS = {73, 65, 66, 71, 40, 82, 27, 53, 80, 11};
  private static final double LEAD_IN_SECONDS = 0.6;
  private static final double TAIL_SECONDS = 2.5;

  private final Song song;
  private final Chart chart;
  private final TempoMap tempo;
  private final List<Harmony> harmony;
  private final List<Chart.Note> tune;
  private final List<Chart.Note> second;
  private final List<Part> parts = new ArrayList<>();

  private Arrangement(Song song, Chart chart) {
    this.song = song;
    this.chart = chart;
    int[] starts = chart.barStarts();
    this.tempo =
        TempoMap.of(
            starts[starts.length - 1],
            song.bpm(),
            LEAD_IN_SECONDS,
            song.drift(),
            song.swingRatio(),
            song.random(1));
    this.harmony = Harmony.play(chart, song.earlyShare(), song.random(2));
    this.tune =
        chart.tune().isEmpty() ? TuneWriter.write(chart, harmony, song.random(3)) : chart.tune();
    this.second =
        chart.second().isEmpty() ? TuneWriter.second(tune, harmony, chart) : chart.second();
  }

  static Arrangement of(Song song, Chart chart) {
    Arrangement arrangement = new Arrangement(song, chart);
    arrangement.assignParts();
    return arrangement;
  }

  List<Part> parts() {
    return parts;
  }

  TempoMap tempo() {
    return tempo;
  }

  double endSeconds() {
    return tempo.secondsAt(tempo.beats()) + TAIL_SECONDS;
  }

  private void assignParts() {
    Style style = song.style();
    boolean compound = chart.bars().get(0).compound();
    Random random = song.random(4);
    double side = random.nextBoolean() ? 1 : -1;
    parts.add(
        part(Part.Role.DRUMS, 0, DrumPlayer.play(chart, style.drums, song.random(5)), 0, 0, 0.1));
    parts.add(
        part(
            Part.Role.BASS,
            style.bassProgram,
            BassPlayer.play(harmony, style.bass, compound, song.random(6)),
            0,
            0,
            0.02));
    parts.add(
        part(
            Part.Role.COMPING,
            style.compingProgram,
            ChordPlayer.comp(harmony, style.comping, compound, song.random(7)),
            0.45 * side,
            -3,
            0.15));
    if (random.nextDouble() < 0.6) {
      int[] plucked = {24, 25, 46, 4, 6};
      parts.add(
          part(
              Part.Role.ARPEGGIO,
              plucked[random.nextInt(plucked.length)],
              inSomeSections(ChordPlayer.arpeggiate(harmony, compound, song.random(8)), random),
              -0.5 * side,
              -6,
              0.2));
    }
    if (style.hasPad) {
      int[] held = {48, 50, 89, 16, 91};
      parts.add(
          part(
              Part.Role.PAD,
              held[random.nextInt(held.length)],
              inSomeSections(ChordPlayer.hold(harmony, song.random(9)), random),
              0.1 * side,
              -8,
              0.4));
    }
    int lead = LEADS[random.nextInt(LEADS.length)];
    parts.add(part(Part.Role.LEAD, lead, played(tune, 100), 0, 1, 0.2));
    parts.add(
        part(Part.Role.SECOND, song.sung() ? 53 : lead, played(second, 84), -0.3 * side, -4, 0.25));
    parts.removeIf(p -> p.notes().isEmpty());
  }

  private static Part part(
      Part.Role role,
      int program,
      List<PlayedNote> notes,
      double placement,
      double levelDb,
      double roomShare) {
    return new Part(role, program, notes, placement, levelDb, roomShare);
  }

  private static List<PlayedNote> played(List<Chart.Note> notes, int velocity) {
    return notes.stream()
        .filter(n -> n.midiPitch() >= 0 && n.midiPitch() <= 127)
        .map(n -> new PlayedNote(n.startBeat(), n.endBeat(), n.midiPitch(), velocity))
        .toList();
  }

  /** Keeps a part out of every other letter, so that sections sound apart. */
  private List<PlayedNote> inSomeSections(List<PlayedNote> notes, Random random) {
    boolean evenLetters = random.nextBoolean();
    boolean oneLetter = chart.bars().stream().map(Chart.Bar::letter).distinct().count() < 2;
    int[] starts = chart.barStarts();
    return notes.stream()
        .filter(
            n -> {
              int bar = 0;
              while (bar + 1 < chart.bars().size() && starts[bar + 1] <= n.startBeat() + 1e-6) {
                bar++;
              }
              boolean even = chart.bars().get(bar).letter().charAt(0) % 2 == 0;
              return oneLetter || even == evenLetters;
            })
        .toList();
  }

  /**
   * @param curve pitch of the lead as it was sung, every 10 ms; empty = read it off the notes
   */
  Truth truth(List<Double> curve, List<Truth.Echo> echoes) {
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
    List<SungNote> melody = sung(tune);
    Chart.Bar first = chart.bars().get(0);
    return new Truth(
        song.chartId(),
        endSeconds(),
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
        sung(second),
        formKnown ? sections : List.of(),
        parts.stream()
            .map(
                p ->
                    new Truth.Placement(
                        p.role().name().toLowerCase(java.util.Locale.ROOT),
                        tempo.secondsAt(0),
                        end,
                        p.placement()))
            .toList(),
        echoes,
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
    return parts.stream()
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
    Double[] hertz = new Double[(int) (endSeconds() / Truth.CURVE_HOP_SECONDS) + 1];
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
    return planted;
  }
}
