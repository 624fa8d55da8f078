package undersong.bench.peers;

import java.util.List;
import undersong.bench.metrics.EchoMetrics;
import undersong.bench.metrics.RoomMetrics;
import undersong.bench.metrics.SpaceMetrics;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;

/**
 * What somebody heard of a production.
 *
 * @param voices notes of all voices beside the lead
 * @param lines notes of the accompaniment's lines; voices of chords are none
 * @param layers "drums", "bass" and "lead", each stretch in which it plays
 * @param additions notes told as new in a repeat
 * @param sideOverMidDb bar by bar
 * @param sweeps stretches in which a filter opens or closes
 * @param duckingDb depth, stretch by stretch
 * @param rooms section by section; none where nothing is said of rooms
 * @param roomChanges where the room is told to be wetter or drier than before
 */
public record Produced(
    List<SungNote> voices,
    List<SungNote> lines,
    List<SpaceMetrics.Placed> placed,
    List<EchoMetrics.Copy> copies,
    List<Timed<String>> layers,
    List<SungNote> additions,
    List<Timed<Double>> sideOverMidDb,
    List<Timed<String>> sweeps,
    List<Timed<Double>> duckingDb,
    List<RoomMetrics.Room> rooms,
    List<RoomMetrics.Change> roomChanges) {}
