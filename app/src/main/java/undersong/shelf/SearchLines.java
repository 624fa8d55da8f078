package undersong.shelf;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jdbi.v3.core.Handle;
import undersong.reading.Reading;
import undersong.search.Searched;
import undersong.search.Seeds;
import undersong.search.SongLines;
import undersong.search.TechniquePlaces;
import undersong.technique.Technique;
import undersong.time.Span;

/**
 * What is searched of each song: lines, and where techniques were found. It is read once and kept
 * in memory (three to eight kilobytes a song); of what changed since, whoever changed it, it is
 * read again.
 */
public final class SearchLines {
  private final ShelfDatabase database;
  private final TreeMap<Long, Searched> known = new TreeMap<>();
  private Map<Long, Searched> all = Map.of();
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

  /** What is searched of every song, by song; what did not change is not read again. */
  public synchronized Map<Long, Searched> all() {
    long now = database.read(ShelfDatabase::changes);
    if (now != seen) {
      seen = database.readAtOnce(this::readChanged);
      all = Collections.unmodifiableMap(new LinkedHashMap<>(known));
    }
    return all;
  }

  private long readChanged(Handle handle) {
    Map<Long, TechniquePlaces> found = techniques(handle);
    handle
        .createQuery(
            "SELECT song.id, lines FROM song LEFT JOIN search_line ON song_id = song.id"
                + " WHERE song.changed > :change")
        .setFetchSize(ShelfDatabase.ROWS_AT_ONCE)
        .bind("change", seen)
        .map((row, context) -> Map.entry(row.getLong(1), Optional.ofNullable(row.getString(2))))
        .forEach(
            one -> {
              SongLines lines = one.getValue().map(SongLines::parse).orElse(SongLines.NONE);
              known.put(
                  one.getKey(),
                  new Searched(
                      lines,
                      Seeds.of(lines),
                      found.getOrDefault(one.getKey(), TechniquePlaces.NONE)));
            });
    return ShelfDatabase.changes(handle);
  }

  /**
   * Where techniques were found in the songs that changed; findings under one half do not count.
   */
  private Map<Long, TechniquePlaces> techniques(Handle handle) {
    Map<Long, TechniquePlaces> found = new HashMap<>();
    List<Technique> techniques = new ArrayList<>();
    List<Span> spans = new ArrayList<>();
    long[] song = {0};
    Runnable songEnds =
        () -> {
          found.put(song[0], new TechniquePlaces(techniques, spans));
          techniques.clear();
          spans.clear();
        };
    handle
        .createQuery(
            "SELECT song_id, technique, start_seconds, end_seconds FROM finding"
                + " JOIN song ON song.id = song_id"
                + " WHERE song.changed > :change AND probability >= :from"
                + " ORDER BY song_id, start_seconds")
        .setFetchSize(ShelfDatabase.ROWS_AT_ONCE)
        .bind("change", seen)
        .bind("from", FindingIndex.COUNTS_FROM)
        .map(
            (row, context) -> {
              if (row.getLong(1) != song[0]) {
                songEnds.run();
                song[0] = row.getLong(1);
              }
              techniques.add(Technique.named(row.getString(2)));
              spans.add(new Span(row.getDouble(3), row.getDouble(4)));
              return song[0];
            })
        .forEach(id -> {});
    songEnds.run();
    return found;
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
