package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;
import undersong.bench.render.Part.Role;

/** Writes down what is true of a production once it is mixed. */
final class StagingWriter {
  private static final double REST_BARS = 2;
  private static final double LINE_REST_BEATS = 0.4;
  private static final Set<Role> SINGLE_NOTES =
      Set.of(Role.ARPEGGIO, Role.LINE, Role.ADDITION, Role.ANSWER);

  private static final Set<Role> COMPARED =
      Set.of(
          Role.BASS, Role.LEAD, Role.SECOND, Role.ARPEGGIO, Role.LINE, Role.ADDITION, Role.ANSWER);

  private final Arrangement arrangement;
  private final TempoMap tempo;
  private final MixLevels levels;
  private final List<Passage> passages;
  private final double usualDecaySeconds;

  private StagingWriter(Arrangement arrangement, MixLevels levels, boolean worn) {
    this.arrangement = arrangement;
    this.usualDecaySeconds = Mixer.usualDecaySeconds(worn);
    this.tempo = arrangement.tempo();
    this.levels = levels;
    this.passages = Passage.of(arrangement.chart());
  }

  /**
   * @param levels of the clean mix; those of the worn one differ by a few decibels
   */
  static Staging write(Arrangement arrangement, MixLevels levels) {
    return new StagingWriter(arrangement, levels, false).staging();
  }

  /** The rooms of the worn copy, as they were mixed in before anything wore. */
  static List<Staging.Room> wornRooms(Arrangement arrangement, MixLevels levels) {
    return new StagingWriter(arrangement, levels, true).rooms();
  }

  private Staging staging() {
    List<Part> parts = arrangement.parts();
    List<Staging.Placement> placements = new ArrayList<>();
    List<Timed<String>> layers = new ArrayList<>();
    List<Staging.Echo> echoes = new ArrayList<>();
    List<Staging.Sweep> sweeps = new ArrayList<>();
    List<Staging.Line> lines = new ArrayList<>();
    double barBeats = arrangement.chart().bars().get(0).beats();
    for (int i = 0; i < parts.size(); i++) {
      Part part = parts.get(i);
      String name = part.role().words();
      for (double[] stretch : stretches(part.notes(), REST_BARS * barBeats)) {
        layers.add(new Timed<>(seconds(stretch[0]), seconds(stretch[1]), name));
      }
      boolean shortLines = part.role() == Role.LINE || part.role() == Role.ANSWER;
      for (double[] event :
          stretches(part.notes(), shortLines ? LINE_REST_BEATS : REST_BARS * barBeats)) {
        placements.addAll(placements(i, part, seconds(event[0]), seconds(event[1])));
      }
      echoes.addAll(part.strip().echoes());
      sweeps.addAll(part.strip().sweeps());
      if (SINGLE_NOTES.contains(part.role())) {
        lines.add(new Staging.Line(name, part.notes().stream().map(this::sung).toList()));
      }
    }
    return new Staging(
        placements,
        echoes,
        arrangement.production().takes(),
        layers,
        sweeps,
        duckings(),
        passages.stream().map(this::width).toList(),
        lines,
        additions(),
        rooms(),
        List.of());
  }

  private double seconds(double beat) {
    return tempo.secondsAt(beat);
  }

  private SungNote sung(PlayedNote n) {
    return new SungNote(seconds(n.startBeat()), seconds(n.endBeat()), n.pitch());
  }

  /** First and last beat of notes that follow each other within a rest. */
  private static List<double[]> stretches(List<PlayedNote> notes, double restBeats) {
    List<double[]> stretches = new ArrayList<>();
    List<PlayedNote> ordered = new ArrayList<>(notes);
    ordered.sort(java.util.Comparator.comparingDouble(PlayedNote::startBeat));
    for (PlayedNote n : ordered) {
      int last = stretches.size() - 1;
      if (last < 0 || n.startBeat() - stretches.get(last)[1] >= restBeats) {
        stretches.add(new double[] {n.startBeat(), n.endBeat()});
      } else {
        stretches.get(last)[1] = Math.max(stretches.get(last)[1], n.endBeat());
      }
    }
    return stretches;
  }

  /** One placement for each stretch between the moves of a part. */
  private List<Staging.Placement> placements(int index, Part part, double start, double end) {
    List<Double> edges = new ArrayList<>(List.of(start, end));
    for (Timed<Double> move : part.strip().moves()) {
      edges.add(Math.max(start, Math.min(end, move.startSeconds())));
      edges.add(Math.max(start, Math.min(end, move.endSeconds())));
    }
    edges.sort(null);
    List<Staging.Placement> placements = new ArrayList<>();
    double from = start;
    for (int e = 1; e < edges.size(); e++) {
      double to = edges.get(e);
      double here = part.strip().placementAt((from + to) / 2);
      boolean moves = to < end && part.strip().placementAt(to + 1e-6) == here;
      if (to - from > 0.05 && !moves) {
        placements.add(
            new Staging.Placement(
                part.role().words(), from, to, here, levels.partDb(index, from, to)));
        from = to;
      }
    }
    return placements;
  }

  /** Sections in which drums play and held sounds give way. */
  private List<Staging.Ducking> duckings() {
    Staging.Ducking set = arrangement.production().ducking();
    return arrangement.production().techniques().stream()
        .filter(t -> t.value().equals("ducking"))
        .map(
            t ->
                new Staging.Ducking(
                    t.startSeconds(), t.endSeconds(), set.depthDb(), set.recoverySeconds()))
        .toList();
  }

  private Timed<Double> width(Passage p) {
    double start = seconds(p.startBeat());
    double end = seconds(p.endBeat());
    return new Timed<>(start, end, levels.sideOverMidDb(start, end));
  }

  private List<Staging.Room> rooms() {
    List<RoomSend> sends = arrangement.production().rooms();
    List<Staging.Room> rooms = new ArrayList<>();
    for (Passage p : passages) {
      double start = seconds(p.startBeat());
      double end = seconds(p.endBeat());
      double middle = (start + end) / 2;
      double decay =
          sends.stream()
              .filter(s -> s.startSeconds() <= middle && middle < s.endSeconds())
              .mapToDouble(RoomSend::decaySeconds)
              .findFirst()
              .orElse(usualDecaySeconds);
      rooms.add(
          new Staging.Room(start, end, Reverb.decaySeconds(decay), levels.wetToDryDb(start, end)));
    }
    return rooms;
  }

  /** What single-note parts play in a repeat and nobody played in the copy before it. */
  private List<Staging.Addition> additions() {
    List<PlayedNote> notes =
        arrangement.parts().stream()
            .filter(p -> COMPARED.contains(p.role()))
            .flatMap(p -> p.notes().stream())
            .toList();
    List<Staging.Addition> additions = new ArrayList<>();
    for (Passage p : passages) {
      for (Passage before : passages) {
        if (before.letter().equals(p.letter()) && before.copy() == p.copy() - 1) {
          double later = p.startBeat() - before.startBeat();
          notes.stream()
              .filter(n -> p.holds(n.startBeat()))
              .filter(
                  n ->
                      notes.stream()
                          .noneMatch(
                              o ->
                                  o.pitch() == n.pitch()
                                      && Math.abs(n.startBeat() - later - o.startBeat()) < 0.2))
              .forEach(n -> additions.add(new Staging.Addition(seconds(p.startBeat()), sung(n))));
        }
      }
    }
    return additions;
  }
}
