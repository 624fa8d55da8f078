package undersong.shelf;

import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.result.ResultIterable;

/**
 * What a list shows of every song, kept in memory (about a kilobyte a song) and brought up to date
 * by what changed since, whoever changed it.
 */
final class ListedSongs {
  private final ShelfDatabase database;
  private final Reader reader;
  private final TreeMap<Long, Listed> known = new TreeMap<>();
  private List<Listed> all = List.of();
  private long seen;

  /** Reads the songs changed after a change. */
  interface Reader {
    ResultIterable<ShelfEntry> after(Handle handle, long change);
  }

  /**
   * @param text what words are looked for in, in small letters
   */
  record Listed(ShelfEntry entry, String text) {}

  ListedSongs(ShelfDatabase database, Reader reader) {
    this.database = database;
    this.reader = reader;
  }

  /** By number, as of now. */
  synchronized List<Listed> all() {
    long now = database.read(ShelfDatabase::changes);
    if (now != seen) {
      seen =
          database.readAtOnce(
              handle -> {
                reader
                    .after(handle, seen)
                    .forEach(entry -> known.put(entry.song().id(), new Listed(entry, text(entry))));
                return ShelfDatabase.changes(handle);
              });
      all = List.copyOf(known.values());
    }
    return all;
  }

  private static String text(ShelfEntry entry) {
    Song song = entry.song();
    return String.join(
            "\n",
            song.title(),
            song.artist().orElse(""),
            song.year().map(String::valueOf).orElse(""),
            entry.key(),
            entry.meter(),
            song.origin().word(),
            String.valueOf(song.path().getFileName()))
        .toLowerCase(Locale.ROOT);
  }
}
