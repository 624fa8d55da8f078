package undersong.bench.render;

import java.util.List;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;

/**
 * What is true of a song's production: where each sound stands, what is repeated and how, who plays
 * when, what is done to the sound. Times in seconds of the audio file.
 *
 * @param placements of every event that stands in one place: a short line, or a stretch of a part
 * @param echoes copies by delay
 * @param takes lines performed a second time
 * @param layers each stretch in which a part plays, rests shorter than two bars left out of account
 * @param sweeps filters that open or close
 * @param duckings stretches in which held sounds give way to the kick
 * @param sideOverMidDb energy of the sides over the middle, section by section
 * @param lines notes of the accompaniment's parts that play single notes
 * @param additions notes of single-note parts that a repeat has and the copy before it lacks
 * @param rooms section by section; none in songs rendered before rooms were written down
 * @param stands where single notes stand in a worn copy; none in a clean one, where they stand as
 *     placed
 */
public record Staging(
    List<Placement> placements,
    List<Echo> echoes,
    List<Take> takes,
    List<Timed<String>> layers,
    List<Sweep> sweeps,
    List<Ducking> duckings,
    List<Timed<Double>> sideOverMidDb,
    List<Line> lines,
    List<Addition> additions,
    List<Room> rooms,
    List<Stand> stands) {
  public static final Staging NONE =
      new Staging(
          List.of(), List.of(), List.of(), List.of(), List.of(), List.of(), List.of(), List.of(),
          List.of(), List.of(), List.of());

  public Staging {
    rooms = rooms == null ? List.of() : List.copyOf(rooms);
    stands = stands == null ? List.of() : List.copyOf(stands);
  }

  /**
   * @param part "drums", "bass", "comping", "arpeggio", "pad", "lead", "second", "line", "double",
   *     "answer" or "addition"
   * @param placement -1 left to 1 right, constant power
   * @param levelDb against the whole mix through the same stretch
   */
  public record Placement(
      String part, double startSeconds, double endSeconds, double placement, double levelDb) {}

  /**
   * Copies of what a part plays from start to end.
   *
   * @param delaySeconds from a sound to its first copy, and from copy to copy
   * @param firstDb level of the first copy against the sound
   * @param decayDb of each copy against the one before; negative
   * @param lowPassHz passed once by the first copy, twice by the second
   * @param sides whether copies jump between left and right (ping-pong); else they stay in place
   */
  public record Echo(
      String part,
      double startSeconds,
      double endSeconds,
      double delaySeconds,
      int repeats,
      double firstDb,
      double decayDb,
      double lowPassHz,
      boolean sides) {}

  /** How a line comes to be heard twice without a delay. */
  public enum TakeKind {
    /** Performed again afterwards. */
    AGAIN,
    /** Performed again at once, 5 to 40 ms apart. */
    DOUBLE
  }

  /**
   * A second performance of what a part plays from start to end.
   *
   * @param lagSeconds mean distance of equal notes
   * @param lagWanderSeconds standard deviation of that distance
   * @param pitchWanderCents standard deviation of the pitch; 0 where an instrument plays
   */
  public record Take(
      TakeKind kind,
      String part,
      double startSeconds,
      double endSeconds,
      double lagSeconds,
      double lagWanderSeconds,
      double pitchWanderCents,
      double placement) {}

  /** A low-pass filter whose corner moves by equal ratios in equal times. */
  public record Sweep(
      String part, double startSeconds, double endSeconds, double fromHz, double toHz) {}

  /**
   * @param depthDb by how much the sound gives way; positive
   * @param recoverySeconds until it is back
   */
  public record Ducking(
      double startSeconds, double endSeconds, double depthDb, double recoverySeconds) {}

  /** The notes of one part. */
  public record Line(String part, List<SungNote> notes) {}

  /**
   * @param copyStartSeconds beginning of the repeat that has the note
   */
  public record Addition(double copyStartSeconds, SungNote note) {}

  /**
   * The room of a section, as it was mixed in; what is done to the mix afterwards is left out.
   *
   * @param decaySeconds time to fall by 60 dB, one entry per {@link undersong.reading.HearingBand};
   *     0 where it is not asked for
   * @param wetToDryDb energy of the reverb over that of all else in the mix
   */
  public record Room(
      double startSeconds, double endSeconds, List<Double> decaySeconds, double wetToDryDb) {}

  /** The same production heard in other rooms. */
  Staging withRooms(List<Room> others) {
    return with(others, stands);
  }

  /** One note, and where wear has moved it. */
  public record Stand(String part, double startSeconds, double midiPitch, double placement) {}

  /** With others in place of these. */
  public Staging withStands(List<Stand> others) {
    return with(rooms, others);
  }

  private Staging with(List<Room> heardRooms, List<Stand> heardStands) {
    return new Staging(
        placements,
        echoes,
        takes,
        layers,
        sweeps,
        duckings,
        sideOverMidDb,
        lines,
        additions,
        heardRooms,
        heardStands);
  }

  /** The same production on a faster tape. */
  Staging stretched(double factor) {
    return new Staging(
        placements.stream()
            .map(
                p ->
                    new Placement(
                        p.part,
                        p.startSeconds / factor,
                        p.endSeconds / factor,
                        p.placement,
                        p.levelDb))
            .toList(),
        echoes.stream()
            .map(
                e ->
                    new Echo(
                        e.part,
                        e.startSeconds / factor,
                        e.endSeconds / factor,
                        e.delaySeconds / factor,
                        e.repeats,
                        e.firstDb,
                        e.decayDb,
                        e.lowPassHz * factor,
                        e.sides))
            .toList(),
        takes.stream()
            .map(
                t ->
                    new Take(
                        t.kind,
                        t.part,
                        t.startSeconds / factor,
                        t.endSeconds / factor,
                        t.lagSeconds / factor,
                        t.lagWanderSeconds / factor,
                        t.pitchWanderCents,
                        t.placement))
            .toList(),
        Truth.spans(layers, factor),
        sweeps.stream()
            .map(
                s ->
                    new Sweep(
                        s.part,
                        s.startSeconds / factor,
                        s.endSeconds / factor,
                        s.fromHz * factor,
                        s.toHz * factor))
            .toList(),
        duckings.stream()
            .map(
                d ->
                    new Ducking(
                        d.startSeconds / factor,
                        d.endSeconds / factor,
                        d.depthDb,
                        d.recoverySeconds / factor))
            .toList(),
        Truth.spans(sideOverMidDb, factor),
        lines.stream().map(l -> new Line(l.part, Truth.notes(l.notes, factor))).toList(),
        additions.stream()
            .map(
                a ->
                    new Addition(
                        a.copyStartSeconds / factor, Truth.notes(List.of(a.note), factor).get(0)))
            .toList(),
        rooms.stream()
            .map(
                r ->
                    new Room(
                        r.startSeconds / factor,
                        r.endSeconds / factor,
                        r.decaySeconds.stream().map(s -> s / factor).toList(),
                        r.wetToDryDb))
            .toList(),
        stands.stream()
            .map(s -> new Stand(s.part, s.startSeconds / factor, s.midiPitch, s.placement))
            .toList());
  }
}
