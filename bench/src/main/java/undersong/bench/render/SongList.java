package undersong.bench.render;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * The fixed sets of songs, from the table {@code songs.tsv}. "tune", "space-tune", "stage-tune" and
 * "pulse-tune" (every way of playing at slow and quick tempi) and "rock-tune" (quick and heavy,
 * most of it leaning off the beat, drums that change with the section), "room-tune" (rooms that
 * change with the section) and "key-tune" (keys that are hard to tell, or change, in all modes and
 * meters) and "voice-tune" (second voices that answer, go against the tune or along with it) may be
 * looked at while thresholds are set; "quick", "full", "space" and "room" measure; "last" was heard
 * once, at the end.
 */
public final class SongList {
  private SongList() {}

  public static List<String> sets() {
    return List.of(
        "tune",
        "quick",
        "full",
        "last",
        "space",
        "space-tune",
        "stage-tune",
        "pulse-tune",
        "rock-tune",
        "room-tune",
        "room",
        "key-tune",
        "voice-tune");
  }

  /** Whether songs of a set may be looked at; they are played by a soundfont of their own. */
  public static boolean forTuning(String set) {
    return set.endsWith("tune");
  }

  public static List<Song> of(String set) throws IOException {
    try (InputStream in = SongList.class.getResourceAsStream("/undersong/bench/songs.tsv")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(l -> l.startsWith(set + "\t"))
          .map(l -> song(l.split("\t")))
          .toList();
    }
  }

  private static Song song(String[] cells) {
    return new Song(
        cells[1],
        Integer.parseInt(cells[2]),
        Integer.parseInt(cells[3]),
        cells[4],
        Double.parseDouble(cells[5]),
        Double.parseDouble(cells[6]),
        Double.parseDouble(cells[7]),
        Double.parseDouble(cells[8]),
        Double.parseDouble(cells[9]),
        Song.Lead.valueOf(cells[10].toUpperCase(Locale.ROOT)),
        cells[11].equals("yes"),
        cells.length < 13 ? Set.of() : devices(cells[12]));
  }

  private static Set<Song.Device> devices(String cell) {
    return Arrays.stream(cell.split(" "))
        .map(d -> Song.Device.valueOf(d.toUpperCase(Locale.ROOT).replace('-', '_')))
        .collect(Collectors.toSet());
  }
}
