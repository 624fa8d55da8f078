package undersong.bench.shelf;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import undersong.bench.data.OpenData;
import undersong.exchange.PaperSongs;
import undersong.reading.Provenance;
import undersong.reading.Reading;
import undersong.search.Searched;
import undersong.shelf.Shelf;
import undersong.shelf.ShelfPlace;
import undersong.shelf.Song;
import undersong.shelf.StudiedFile;

/** A program that writes songs is killed again and again at random moments. */
final class Killed {
  static final Provenance MADE = new Provenance("generated", "generated", Map.of());

  private Killed() {}

  /**
   * @param kills that hit a writing program
   * @param acknowledged songs the program said were kept
   * @param lost of those, not on the shelf afterwards or without a reading
   */
  record Outcome(int kills, int acknowledged, int lost) {}

  /** Writes songs, saying the name of each once it is kept, until it is killed. */
  static final class Writer {
    private Writer() {}

    public static void main(String[] arguments) throws IOException {
      PaperSongs charts = PaperSongs.in(OpenData.find().orElseThrow());
      SongMaker maker = new SongMaker(charts.songs().subList(0, 40));
      Random random = new Random(Long.parseLong(arguments[1]));
      List<Reading> readings = new ArrayList<>();
      for (int i = 0; i < 5; i++) {
        readings.add(maker.reading(maker.make(random)));
      }
      try (Shelf shelf = Shelf.open(ShelfPlace.named(arguments[0]))) {
        for (int i = 0; ; i++) {
          String name = "killed-" + arguments[1] + "-" + i;
          keep(shelf, name, readings.get(i % readings.size()), Song.Words.NONE);
          System.out.println(name);
          System.out.flush();
        }
      }
    }
  }

  static long keep(Shelf shelf, String hash, Reading reading, Song.Words words) {
    StudiedFile facts =
        new StudiedFile(hash, Path.of("/generated", hash + ".flac"), 200, words, Song.Words.NONE);
    return shelf.keep(facts, reading, List.of(), MADE).orElseThrow().id();
  }

  /**
   * @param address of a shelf that may grow by what is written
   */
  static Outcome measure(String address, int kills) throws IOException, InterruptedException {
    Random random = new Random(5);
    Set<String> acknowledged = new HashSet<>();
    for (int kill = 0; kill < kills; kill++) {
      Process writer =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-Xmx200m",
                  "-XX:TieredStopAtLevel=1",
                  "-cp",
                  System.getProperty("java.class.path"),
                  Writer.class.getName(),
                  address,
                  Integer.toString(kill))
              .redirectError(ProcessBuilder.Redirect.INHERIT)
              .start();
      try (BufferedReader said =
          new BufferedReader(
              new InputStreamReader(writer.getInputStream(), StandardCharsets.UTF_8))) {
        String first = said.readLine();
        if (first == null) {
          throw new IllegalStateException("The writing program said nothing.");
        }
        acknowledged.add(first);
        Thread.sleep(random.nextInt(120));
        writer.toHandle().destroyForcibly(); // leaves what it said to be read
        // A last line that was cut off is no acknowledgement, and is not a whole name.
        for (String line = said.readLine(); line != null; line = said.readLine()) {
          acknowledged.add(line);
        }
      }
      writer.waitFor();
    }
    int lost = 0;
    try (Shelf shelf = Shelf.open(ShelfPlace.named(address))) {
      Map<Long, Searched> songs = shelf.search().all();
      for (String name : acknowledged) {
        boolean kept =
            shelf
                .songs()
                .withContent(name)
                .filter(song -> shelf.readings().latest(song.id()).isPresent())
                .filter(song -> songs.get(song.id()).lines().chordLine().size() > 0)
                .isPresent();
        lost += kept ? 0 : 1;
      }
    }
    return new Outcome(kills, acknowledged.size(), lost);
  }
}
