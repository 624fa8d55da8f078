package undersong.shelf;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jdbi.v3.core.Handle;
import undersong.reading.Reading;
import undersong.search.SongLines;
import undersong.technique.Technique;
import undersong.time.Span;

/**
 * What is searched of each song. Lines are read once and kept in memory; a song whose reading moved
 * on is read again.
 */
public final class SearchLines {
  private final ShelfDatabase database;
  private final TreeMap<Long, SongLines> known = new TreeMap<>();
  private Map<Long, SongLines> all = Map.of();
  private long seen;
  private long complete;

  SearchLines(ShelfDatabase database) {
    this.database = database;
  }

  static void put(Handle handle, long songId, int revision, Reading reading) {
    handle.execute(
        "INSERT INTO search_line (song_id, revision, lines) VALUES (?, ?, ?)"
            + " ON CONFLICT (song_id) DO UPDATE SET revision = excluded.revision,"
            + " lines = excluded.lines",
        songId,
        revision,
        SongLines.of(reading).print());
  }

  /**
   * Songs whose lines are missing: their readings were stored by an older program. Only what
   * changed since the last asking is looked through.
   */
  public synchronized List<Long> missing() {
    return database.read(
        handle -> {
          long changes = ShelfDatabase.changes(handle);
          if (changes == complete) {
            return List.of();
          }
          List<Long> missing =
              handle
                  .createQuery(
                      "SELECT reading.song_id FROM reading JOIN song ON song.id = reading.song_id"
                          + " LEFT JOIN search_line s"
                          + " ON s.song_id = reading.song_id AND s.revision = reading.revision"
                          + " WHERE song.changed > :change AND s.song_id IS NULL")
                  .bind("change", complete)
                  .mapTo(Long.class)
                  .list();
          if (missing.isEmpty()) {
            complete = changes;
          }
          return missing;
        });
  }

  /** Writes the lines of a reading that is stored already. */
  public void keep(StoredReading stored) {
    database.<Object>write(
        handle -> {
          put(handle, stored.songId(), stored.revision(), stored.reading());
          Songs.touch(handle, stored.songId());
          return null;
        });
  }

  /** The lines of every song, by song; what did not change is not read again. */
  public synchronized Map<Long, SongLines> all() {
    database.<Object>read(
        handle -> {
          long changes = ShelfDatabase.changes(handle);
          if (changes != seen) {
            handle
                .createQuery(
                    "SELECT song_id, lines FROM search_line JOIN song ON song.id = song_id"
                        + " WHERE song.changed > :change")
                .bind("change", seen)
                .map((row, context) -> Map.entry(row.getLong(1), SongLines.parse(row.getString(2))))
                .forEach(one -> known.put(one.getKey(), one.getValue()));
            all = Collections.unmodifiableMap(new LinkedHashMap<>(known));
            seen = changes;
          }
          return null;
        });
    return all;
  }

  /** Where a technique was found, by song; findings under one half do not count. */
  public Map<Long, List<Span>> places(Technique technique) {
    Map<Long, List<Span>> places = new LinkedHashMap<>();
    database.<Object>read(
        handle -> {
          handle
              .createQuery(
                  "SELECT song_id, start_seconds, end_seconds FROM finding"
                      + " WHERE technique = :technique AND probability >= :from"
                      + " ORDER BY song_id, start_seconds")
              .bind("technique", technique.id())
              .bind("from", FindingIndex.COUNTS_FROM)
              .map(
                  (row, context) ->
                      Map.entry(row.getLong(1), new Span(row.getDouble(2), row.getDouble(3))))
              .forEach(
                  found ->
                      places
                          .computeIfAbsent(found.getKey(), song -> new ArrayList<>())
                          .add(found.getValue()));
          return null;
        });
    return places;
  }

  /** Saved searches by name, then by who saved them. */
  public List<SavedSearch> saved() {
    return database.read(
        handle ->
            handle
                .createQuery("SELECT name, author, query FROM saved_search ORDER BY name, author")
                .map(
                    (row, context) ->
                        new SavedSearch(row.getString(1), row.getString(2), row.getString(3)))
                .list());
  }

  /** Saves a search under a name; another of that name by the same speaker is replaced. */
  public void save(String name, String author, String query, Instant saidAt) {
    database.<Object>write(
        handle ->
            handle.execute(
                "INSERT INTO saved_search (name, author, query, said_at) VALUES (?, ?, ?, ?)"
                    + " ON CONFLICT (name, author) DO UPDATE SET query = excluded.query,"
                    + " said_at = excluded.said_at",
                name,
                author,
                query,
                saidAt.truncatedTo(ChronoUnit.MILLIS).toString()));
  }

  /** Whether there was such a saved search to forget. */
  public boolean forget(String name, String author) {
    return database.write(
        handle ->
            handle.execute("DELETE FROM saved_search WHERE name = ? AND author = ?", name, author)
                == 1);
  }
}
