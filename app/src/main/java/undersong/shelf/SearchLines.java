package undersong.shelf;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
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
  private final Map<Long, Kept> kept = new ConcurrentHashMap<>();

  private record Kept(int revision, SongLines lines) {}

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

  /** Songs whose lines are missing: their readings were stored by an older program. */
  public List<Long> missing() {
    return database.read(
        handle ->
            handle
                .createQuery(
                    "SELECT reading.song_id FROM reading LEFT JOIN search_line s"
                        + " ON s.song_id = reading.song_id AND s.revision = reading.revision"
                        + " WHERE s.song_id IS NULL")
                .mapTo(Long.class)
                .list());
  }

  /** Writes the lines of a reading that is stored already. */
  public void keep(StoredReading stored) {
    database.<Object>write(
        handle -> {
          put(handle, stored.songId(), stored.revision(), stored.reading());
          return null;
        });
  }

  /** The lines of every song, by song; what did not change is not read again. */
  public Map<Long, SongLines> all() {
    Map<Long, Integer> revisions = new LinkedHashMap<>();
    database
        .read(
            handle ->
                handle
                    .createQuery("SELECT song_id, revision FROM search_line ORDER BY song_id")
                    .map((row, context) -> Map.entry(row.getLong(1), row.getInt(2)))
                    .list())
        .forEach(entry -> revisions.put(entry.getKey(), entry.getValue()));
    kept.keySet().retainAll(revisions.keySet());
    boolean first = kept.isEmpty();
    if (first) {
      readAll();
    }
    Map<Long, SongLines> all = new LinkedHashMap<>();
    revisions.forEach(
        (song, revision) -> {
          Kept known = kept.get(song);
          if (known == null || known.revision() != revision) {
            known = read(song);
            kept.put(song, known);
          }
          all.put(song, known.lines());
        });
    return all;
  }

  private void readAll() {
    database.<Object>read(
        handle -> {
          handle
              .createQuery("SELECT song_id, revision, lines FROM search_line")
              .map(
                  (row, context) ->
                      Map.entry(
                          row.getLong(1),
                          new Kept(row.getInt(2), SongLines.parse(row.getString(3)))))
              .forEach(entry -> kept.put(entry.getKey(), entry.getValue()));
          return null;
        });
  }

  private Kept read(long songId) {
    return database.read(
        handle ->
            handle
                .createQuery("SELECT revision, lines FROM search_line WHERE song_id = :song")
                .bind("song", songId)
                .map((row, context) -> new Kept(row.getInt(1), SongLines.parse(row.getString(2))))
                .findOne()
                .orElse(new Kept(0, SongLines.NONE)));
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
                          .computeIfAbsent(found.getKey(), song -> new java.util.ArrayList<>())
                          .add(found.getValue()));
          return null;
        });
    return places;
  }

  /** Saved searches by name. */
  public Map<String, String> saved() {
    Map<String, String> saved = new LinkedHashMap<>();
    database
        .read(
            handle ->
                handle
                    .createQuery("SELECT name, query FROM saved_search ORDER BY name")
                    .map((row, context) -> Map.entry(row.getString(1), row.getString(2)))
                    .list())
        .forEach(entry -> saved.put(entry.getKey(), entry.getValue()));
    return saved;
  }

  /** Saves a search under a name; another of that name is replaced. */
  public void save(String name, String query, Instant saidAt) {
    database.<Object>write(
        handle ->
            handle.execute(
                "INSERT INTO saved_search (name, query, said_at) VALUES (?, ?, ?)"
                    + " ON CONFLICT (name) DO UPDATE SET query = excluded.query,"
                    + " said_at = excluded.said_at",
                name,
                query,
                saidAt.truncatedTo(ChronoUnit.MILLIS).toString()));
  }

  /** Whether there was such a saved search to forget. */
  public boolean forget(String name) {
    return database.write(
        handle -> handle.execute("DELETE FROM saved_search WHERE name = ?", name) == 1);
  }
}
