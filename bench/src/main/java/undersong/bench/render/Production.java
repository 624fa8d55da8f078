package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import undersong.bench.data.Chart;
import undersong.bench.metrics.Timed;
import undersong.bench.render.Part.Role;
import undersong.bench.render.Song.Device;

/**
 * What a producer makes of a band's parts: who plays when, where they stand, what is echoed, played
 * twice, filtered or ducked. Everything that is done is also written down.
 */
final class Production {
  private static final Set<Role> HELD = Set.of(Role.COMPING, Role.ARPEGGIO, Role.PAD, Role.DOUBLE);
  private static final int KICK = 36;

  private final Song song;
  private final Chart chart;
  private final List<Harmony> harmony;
  private final TempoMap tempo;
  private final List<Passage> passages;
  private final List<Part> parts;
  private final SecondTakes secondTakes;
  private final List<Timed<String>> techniques = new ArrayList<>();
  private final List<RoomSend> rooms = new ArrayList<>();
  private Staging.Ducking ducking = new Staging.Ducking(0, 0, 0, 0);

  private Production(
      Song song, Chart chart, List<Harmony> harmony, TempoMap tempo, List<Part> band) {
    this.song = song;
    this.chart = chart;
    this.harmony = harmony;
    this.tempo = tempo;
    this.passages = Passage.of(chart);
    this.parts = new ArrayList<>(band);
    this.secondTakes = new SecondTakes(song, tempo);
  }

  static Production of(
      Song song, Chart chart, List<Harmony> harmony, TempoMap tempo, List<Part> band) {
    Production production = new Production(song, chart, harmony, tempo, band);
    song.devices().forEach(production::apply);
    production.parts.removeIf(p -> p.notes().isEmpty());
    return production;
  }

  List<Part> parts() {
    return parts;
  }

  List<Staging.Take> takes() {
    return secondTakes.takes();
  }

  /** Depth and recovery; depth 0 = none. */
  Staging.Ducking ducking() {
    return ducking;
  }

  /** Where the room changes; none = one room throughout. */
  List<RoomSend> rooms() {
    return rooms;
  }

  List<Timed<String>> techniques() {
    List<Timed<String>> all = new ArrayList<>(techniques);
    all.addAll(secondTakes.techniques());
    return all;
  }

  private void apply(Device device) {
    switch (device) {
      case ALTERNATE -> alternate();
      case THROW -> throwEchoes();
      case ECHO -> echo(Role.LEAD, Delays.ofChoruses(song, tempo, passages));
      case PING_PONG -> echo(Role.ARPEGGIO, Delays.pingPong(song, tempo, passages));
      case ANSWER -> answer();
      case DOUBLE -> doubleChords();
      case LEAD_DOUBLE -> doubleLead();
      case DUCK -> duck();
      case SWEEP -> sweep();
      case WIDTH -> width();
      case ADDITION -> parts.add(AddedLines.thirds(song, passages, harmony));
      case LAYERS -> layers();
      case ROOM -> rooms.addAll(Rooms.of(song, passages, tempo));
      case SECOND, COUNTER -> {}
    }
  }

  private void throwEchoes() {
    List<Staging.Echo> echoes = Delays.thrown(song, tempo, phrases());
    echoes.forEach(
        e -> {
          double last = e.endSeconds() + e.repeats() * e.delaySeconds();
          techniques.add(new Timed<>(e.startSeconds(), last, "delay-throw"));
        });
    change(Role.LEAD, s -> s.withEchoes(echoes));
  }

  private void echo(Role role, List<Staging.Echo> echoes) {
    echoes.forEach(e -> techniques.add(new Timed<>(e.startSeconds(), e.endSeconds(), "echo")));
    change(role, s -> s.withEchoes(echoes));
  }

  private void alternate() {
    parts.addAll(AddedLines.byTurns(song, chart, passages, harmony));
    choruses().forEach(p -> plant("alternating-pan", p.startBeat(), p.endBeat()));
  }

  private List<Passage> choruses() {
    return passages.stream().filter(Passage::isChorus).toList();
  }

  private void answer() {
    for (Part p : List.copyOf(parts)) {
      if (p.role() == Role.LEAD) {
        parts.add(secondTakes.answers(p, phrases()));
      }
    }
  }

  private void doubleChords() {
    change(Role.COMPING, s -> s.withPlacement(-0.75));
    for (Part p : List.copyOf(parts)) {
      if (p.role() == Role.COMPING) {
        List<PlayedNote> second = secondTakes.doubled(p, passages, 0, 0.75, song.random(48));
        parts.add(Part.played(Role.DOUBLE, p.program(), second, Strip.at(0.75, -3, 0.15)));
      }
    }
  }

  private void doubleLead() {
    List<Passage> choruses = choruses();
    List<Timed<Double>> moves = choruses.stream().map(p -> timed(p, -0.6)).toList();
    change(Role.LEAD, s -> s.withMoves(moves));
    for (Part p : List.copyOf(parts)) {
      if (p.role() == Role.LEAD && p.sung()) {
        List<PlayedNote> second = secondTakes.doubled(p, choruses, 12, 0.6, song.random(51));
        parts.add(Part.sung(Role.DOUBLE, second, 12, Strip.at(0.6, -1, 0.2)));
      }
    }
  }

  private void duck() {
    Random random = song.random(47);
    ducking =
        new Staging.Ducking(0, 0, 6 + 4 * random.nextDouble(), 0.15 + 0.1 * random.nextDouble());
    HELD.forEach(role -> change(role, Strip::thatDucks));
    for (Passage p : passages) {
      boolean kicks =
          parts.stream()
              .filter(d -> d.role() == Role.DRUMS)
              .flatMap(d -> d.notes().stream())
              .anyMatch(n -> n.pitch() == KICK && p.holds(n.startBeat()));
      if (kicks) {
        plant("ducking", p.startBeat(), p.endBeat());
      }
    }
  }

  /** Opens over the two bars before the first chorus, closes over the last two. */
  private void sweep() {
    Random random = song.random(48);
    int[] starts = chart.barStarts();
    int last = starts.length - 1;
    double low = 300 + 200 * random.nextDouble();
    double high = 7000 + 3000 * random.nextDouble();
    List<double[]> moves = new ArrayList<>();
    for (int b = 2; b <= last; b++) {
      double at = starts[b];
      if (passages.stream().anyMatch(p -> p.isChorus() && p.copy() == 0 && p.startBeat() == at)) {
        moves.add(new double[] {starts[b - 2], starts[b], low, high});
      }
    }
    moves.add(new double[] {starts[last - 2], starts[last], high, low});
    for (Role role : HELD) {
      List<Staging.Sweep> sweeps =
          moves.stream()
              .map(
                  m ->
                      new Staging.Sweep(
                          role.words(), tempo.secondsAt(m[0]), tempo.secondsAt(m[1]), m[2], m[3]))
              .toList();
      change(role, s -> s.withSweeps(sweeps));
    }
    moves.forEach(m -> plant("filter-sweep", m[0], m[1]));
  }

  private void width() {
    List<Passage> narrow = passages.stream().filter(p -> !p.isChorus()).toList();
    for (int i = 0; i < parts.size(); i++) {
      Part part = parts.get(i);
      double closer = 0.12 * part.strip().placement();
      boolean wide = part.role() != Role.ANSWER && Math.abs(part.strip().placement()) > 0.09;
      if (wide && part.strip().moves().isEmpty()) {
        List<Timed<Double>> moves = narrow.stream().map(p -> timed(p, closer)).toList();
        parts.set(i, part.withStrip(part.strip().withMoves(moves)));
      }
    }
    for (int i = 1; i < passages.size(); i++) {
      if (passages.get(i).isChorus() != passages.get(i - 1).isChorus()) {
        plant("width-change", passages.get(i).startBeat() - 1, passages.get(i).startBeat() + 1);
      }
    }
  }

  /** Takes drums, bass, arpeggio and pad out of some sections; chords and lead stay. */
  private void layers() {
    Random random = song.random(49);
    for (Role role : List.of(Role.DRUMS, Role.BASS, Role.ARPEGGIO, Role.PAD)) {
      Set<Integer> silent = new TreeSet<>();
      if (role != Role.ARPEGGIO) {
        silent.add(0);
      }
      while (silent.size() < 2) {
        silent.add(random.nextInt(passages.size() - 1));
      }
      for (int i = 0; i < parts.size(); i++) {
        Part part = parts.get(i);
        if (part.role() == role) {
          parts.set(
              i,
              part.withNotes(
                  part.notes().stream()
                      .filter(
                          n -> silent.stream().noneMatch(s -> passages.get(s).holds(n.startBeat())))
                      .toList()));
        }
      }
    }
  }

  /** Notes of the lead, cut where it rests for a beat and a half. */
  private List<List<PlayedNote>> phrases() {
    List<List<PlayedNote>> phrases = new ArrayList<>();
    double lastEnd = Double.NEGATIVE_INFINITY;
    for (Part part : parts) {
      for (PlayedNote n : part.role() == Role.LEAD ? part.notes() : List.<PlayedNote>of()) {
        if (n.startBeat() - lastEnd > 1.4) {
          phrases.add(new ArrayList<>());
        }
        phrases.get(phrases.size() - 1).add(n);
        lastEnd = n.endBeat();
      }
    }
    return phrases;
  }

  private void change(Role role, UnaryOperator<Strip> change) {
    parts.replaceAll(p -> p.role() == role ? p.withStrip(change.apply(p.strip())) : p);
  }

  private void plant(String technique, double fromBeat, double toBeat) {
    techniques.add(new Timed<>(tempo.secondsAt(fromBeat), tempo.secondsAt(toBeat), technique));
  }

  private Timed<Double> timed(Passage p, double placement) {
    return new Timed<>(tempo.secondsAt(p.startBeat()), tempo.secondsAt(p.endBeat()), placement);
  }
}
