package undersong.bench.render;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * The fixed sets of songs, from the table {@code songs.tsv}. "tune" may be looked at while
 * thresholds are set; "quick" and "full" measure; "last" is left alone until the end.
 */
public final class SongList {
  private SongList() {}

  public static List<String> sets() {
    return List.of("tune", "quick", "full", "last");
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
        cells[10].equals("yes"),
        cells[11].equals("yes"));
  }
}
