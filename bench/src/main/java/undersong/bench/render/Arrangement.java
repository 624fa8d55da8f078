package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import undersong.bench.data.Chart;

/** A chart arranged for a band: who plays what, and when it sounds. */
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
  private final Production production;

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
    this.tune = inRange(tune());
    this.second = second();
    this.production = Production.of(song, chart, harmony, tempo, band());
  }

  static Arrangement of(Song song, Chart chart) {
    return new Arrangement(song, chart);
  }

  List<Part> parts() {
    return production.parts();
  }

  Production production() {
    return production;
  }

  Song song() {
    return song;
  }

  Chart chart() {
    return chart;
  }

  List<Harmony> harmony() {
    return harmony;
  }

  List<Chart.Note> lead() {
    return tune;
  }

  List<Chart.Note> secondVoice() {
    return parts().stream().anyMatch(p -> p.role() == Part.Role.SECOND) ? second : List.of();
  }

  TempoMap tempo() {
    return tempo;
  }

  double endSeconds() {
    return tempo.secondsAt(tempo.beats()) + TAIL_SECONDS;
  }

  private List<Chart.Note> second() {
    if (song.has(Song.Device.COUNTER)) {
      return CounterLine.write(tune, harmony, chart, song.random(40));
    }
    return chart.second().isEmpty()
        ? TuneWriter.second(tune, harmony, chart)
        : inRange(chart.second());
  }

  private List<Chart.Note> tune() {
    if (!chart.tune().isEmpty()) {
      return chart.tune();
    }
    List<Chart.Note> written = TuneWriter.write(chart, harmony, song.random(3));
    return song.produced() || song.has(Song.Device.COUNTER)
        ? Passage.returning(written, Passage.of(chart))
        : written;
  }

  /** Down by octaves to where the synthesizer that sings words still keeps its pitch. */
  private List<Chart.Note> inRange(List<Chart.Note> notes) {
    int highest = notes.stream().mapToInt(Chart.Note::midiPitch).max().orElse(0);
    int down = 0;
    while (song.lead() == Song.Lead.WORDS && highest - down > WordSinger.HIGHEST_PITCH) {
      down += 12;
    }
    int octaves = down;
    return notes.stream()
        .map(n -> new Chart.Note(n.startBeat(), n.endBeat(), n.midiPitch() - octaves))
        .toList();
  }

  /** The band before the producer comes. */
  private List<Part> band() {
    Style style = song.style();
    boolean compound = chart.bars().get(0).compound();
    boolean produced = song.produced();
    List<Harmony> upper =
        song.has(Song.Device.ADDITION) ? AddedLines.withoutThirds(harmony, chart) : harmony;
    Random random = song.random(4);
    double side = random.nextBoolean() ? 1 : -1;
    List<Part> parts = new ArrayList<>();
    parts.add(
        Part.played(
            Part.Role.DRUMS,
            0,
            DrumPlayer.play(chart, style, song.random(5)),
            Strip.at(0, 0, 0.1)));
    parts.add(
        Part.played(
            Part.Role.BASS,
            style.bassProgram,
            BassPlayer.play(harmony, style.bass, compound, song.random(6)),
            Strip.at(0, 0, 0.02)));
    parts.add(
        Part.played(
            Part.Role.COMPING,
            style.compingProgram,
            ChordPlayer.comp(upper, style.comping, compound, song.random(7)),
            Strip.at(0.45 * side, -3, 0.15)));
    if (random.nextDouble() < 0.6 || song.has(Song.Device.PING_PONG)) {
      int[] plucked = {24, 25, 46, 4, 6};
      int program = plucked[random.nextInt(plucked.length)];
      List<PlayedNote> notes = ChordPlayer.arpeggiate(upper, compound, song.random(8));
      parts.add(
          Part.played(
              Part.Role.ARPEGGIO,
              program,
              produced ? notes : inSomeSections(notes, random),
              Strip.at(-0.5 * side, -6, 0.2)));
    }
    if (style.hasPad) {
      int[] held = {48, 50, 89, 16, 91};
      int program = held[random.nextInt(held.length)];
      List<PlayedNote> notes = ChordPlayer.hold(upper, song.random(9));
      parts.add(
          Part.played(
              Part.Role.PAD,
              program,
              produced ? notes : inSomeSections(notes, random),
              Strip.at(0.1 * side, -8, 0.4)));
    }
    int lead = LEADS[random.nextInt(LEADS.length)];
    Strip middle = Strip.at(0, 1, 0.2);
    parts.add(
        song.sung()
            ? Part.sung(Part.Role.LEAD, played(tune, 100), 0, middle.withEchoes(phraseEchoes()))
            : Part.played(
                Part.Role.LEAD, lead, played(tune, 100), middle.withEchoes(phraseEchoes())));
    Strip aside = Strip.at(-0.3 * side, -4, 0.25);
    List<PlayedNote> under = played(second, 84);
    if (!produced) {
      int voices = song.sung() ? 53 : lead;
      if (song.has(Song.Device.COUNTER) && random.nextBoolean()) {
        voices = LEADS[random.nextInt(LEADS.length)];
      }
      parts.add(Part.played(Part.Role.SECOND, voices, under, aside));
    } else if (song.has(Song.Device.SECOND)) {
      parts.add(
          song.sung()
              ? Part.sung(Part.Role.SECOND, under, 8, aside)
              : Part.played(Part.Role.SECOND, lead, under, aside));
    }
    parts.removeIf(p -> p.notes().isEmpty());
    return parts;
  }

  /** An echo of three quarters of a beat on the last beats of every eighth bar's first half. */
  private List<Staging.Echo> phraseEchoes() {
    List<Staging.Echo> echoes = new ArrayList<>();
    for (int beat = 12; song.echo() && beat + 4 < tempo.beats(); beat += 32) {
      echoes.add(
          new Staging.Echo(
              "lead",
              tempo.secondsAt(beat),
              tempo.secondsAt(beat + 4),
              0.75 * 60 / song.bpm(),
              4,
              -6,
              -6,
              20_000,
              false));
    }
    return echoes;
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
}
