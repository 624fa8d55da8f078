package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Real rock and metal recordings in two stems (guitar, everything else) with constant tempo maps
 * set by hand: Debian packages fretsonfire-songs-sectoid and fretsonfire-songs-muldjord. Where the
 * beat falls between the beats of the map is not always sure, and bar lines are unknown.
 */
public final class RockRecordingReader {
  private static final Path GAMES = Path.of("/usr/share/games/fretsonfire/data/songs");

  private RockRecordingReader() {}

  /**
   * One recording; the mix is the sum of its stems.
   *
   * @param beats times by the tempo map, to the end of the longer stem
   */
  public record TwoStems(String id, List<Path> stems, double bpm, List<Double> beats) {}

  /** Both packages, numbered by folder name; a missing package is told as refused. */
  public static Harvest<TwoStems> readAll() {
    List<TwoStems> songs = new ArrayList<>();
    List<String> refused = new ArrayList<>();
    for (String set : List.of("sectoid", "muldjord")) {
      Path folder = GAMES.resolve(set);
      if (!Files.isDirectory(folder)) {
        refused.add(
            "Install Debian package fretsonfire-songs-%s for its recordings.".formatted(set));
        continue;
      }
      List<Path> recordings =
          Harvest.list(folder).stream().filter(p -> Files.isDirectory(p)).toList();
      Harvest<TwoStems> harvest =
          Harvest.of(recordings, p -> read(p, "%s-%d".formatted(set, recordings.indexOf(p) + 1)));
      songs.addAll(harvest.read());
      refused.addAll(harvest.refused());
    }
    return new Harvest<>(songs, refused);
  }

  static TwoStems read(Path folder, String id) throws IOException {
    MidiSong map = MidiSong.read(folder.resolve("notes.mid"));
    double bpm = 60e6 / map.microsecondsPerBeat().lastEntry().getValue();
    long lastTick =
        map.lines().stream()
            .flatMap(l -> l.notes().stream())
            .mapToLong(MidiSong.Note::endTick)
            .max()
            .orElseThrow(() -> new Harvest.Unreadable("tempo map holds no notes"));
    int beats = (int) (lastTick / map.ticksPerBeat());
    return new TwoStems(
        id,
        List.of(folder.resolve("song.ogg"), folder.resolve("guitar.ogg")),
        bpm,
        IntStream.rangeClosed(0, beats)
            .mapToObj(b -> map.secondsAt((long) b * map.ticksPerBeat()))
            .toList());
  }
}
