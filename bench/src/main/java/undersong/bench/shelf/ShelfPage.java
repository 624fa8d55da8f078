package undersong.bench.shelf;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** The page of what was measured on the shelf: one part for each kind of store. */
final class ShelfPage {
  private static final String HEAD =
      """
      # The shelf

      Songs are generated: chords follow one another as often as in the McGill Billboard and RS200 charts, tunes wander over the scale; readings are taken
      as right. One song in a hundred gets a row of six chords, another a figure of seven notes, a third holds eight bars of the song before it in another
      key. Times are taken in the program, one question after the other, by the clock; "processor" is what of it processors worked for the program, in all its threads (a server
      and waiting left out).
      """;

  private ShelfPage() {}

  /** Writes one part anew; the other stays as it is. */
  static void put(Path page, String title, String part) throws IOException {
    StringBuilder text = new StringBuilder(HEAD);
    if (Files.exists(page)) {
      for (String other : Files.readString(page).split("(?m)^## ")) {
        if (!other.startsWith("# ") && !other.startsWith(title)) {
          text.append("\n## ").append(other.strip()).append('\n');
        }
      }
    }
    text.append("\n## ").append(title).append("\n\n").append(part.strip()).append('\n');
    Files.writeString(page, text);
  }
}
