package undersong.shelf;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;

/**
 * The remarks on each song. None is ever deleted; one taken away is only no longer shown, and what
 * a remark said before it was reworded is kept with it.
 */
public final class Remarks {
  private static final String COLUMNS = "id, author, said_at, start_seconds, end_seconds, words";

  private final ShelfDatabase database;

  Remarks(ShelfDatabase database) {
    this.database = database;
  }

  /** All that were not taken away, by place. */
  public List<Remark> of(long songId) {
    return database.read(
        handle -> {
          Map<Long, List<Remark.Wording>> earlier =
              handle
                  .createQuery(
                      "SELECT remark_id, w.author, w.said_at, w.start_seconds, w.end_seconds,"
                          + " w.words FROM remark_wording w JOIN remark ON remark.id = remark_id"
                          + " WHERE song_id = :song ORDER BY w.id")
                  .bind("song", songId)
                  .map((row, context) -> Map.entry(row.getLong("remark_id"), wording(row)))
                  .collect(
                      Collectors.groupingBy(
                          Map.Entry::getKey,
                          Collectors.mapping(Map.Entry::getValue, Collectors.toList())));
          return handle
              .createQuery(
                  "SELECT "
                      + COLUMNS
                      + " FROM remark WHERE song_id = :song AND withdrawn = 0"
                      + " ORDER BY start_seconds, id")
              .bind("song", songId)
              .map(
                  (row, context) -> remark(row, earlier.getOrDefault(row.getLong("id"), List.of())))
              .list();
        });
  }

  public Remark add(
      long songId,
      String author,
      Instant saidAt,
      double startSeconds,
      OptionalDouble endSeconds,
      String words) {
    return database.write(
        handle -> added(handle, songId, author, saidAt, startSeconds, endSeconds, words));
  }

  /**
   * Adds several in one step, all or none.
   *
   * @param places begin and perhaps end of each, in the order of {@code words}
   */
  public List<Remark> addAll(
      long songId, String author, Instant saidAt, List<Place> places, List<String> words) {
    return database.write(
        handle -> {
          List<Remark> all = new ArrayList<>();
          for (int i = 0; i < places.size(); i++) {
            Place place = places.get(i);
            all.add(
                added(
                    handle,
                    songId,
                    author,
                    saidAt,
                    place.startSeconds(),
                    place.endSeconds(),
                    words.get(i)));
          }
          return all;
        });
  }

  /**
   * Where a remark stands.
   *
   * @param endSeconds empty for a moment
   */
  public record Place(double startSeconds, OptionalDouble endSeconds) {}

  private static Remark added(
      Handle handle,
      long songId,
      String author,
      Instant saidAt,
      double startSeconds,
      OptionalDouble endSeconds,
      String words) {
    Songs.touch(handle, songId);
    return handle
        .createQuery(
            "INSERT INTO remark (song_id, author, said_at, start_seconds, end_seconds, words)"
                + " VALUES (:song, :author, :at, :start, :end, :words) RETURNING "
                + COLUMNS)
        .bind("song", songId)
        .bind("author", author)
        .bind("at", saidAt.truncatedTo(ChronoUnit.MILLIS).toString())
        .bind("start", startSeconds)
        .bind("end", boxed(endSeconds))
        .bind("words", words)
        .map((row, context) -> remark(row, List.of()))
        .one();
  }

  /**
   * Says it in other words or of another place; what it said until now is kept beneath, with its
   * author. Whether the song has such a remark.
   */
  public boolean change(
      long songId,
      long id,
      String author,
      Instant saidAt,
      double startSeconds,
      OptionalDouble endSeconds,
      String words) {
    return database.write(
        handle -> {
          int kept =
              handle.execute(
                  "INSERT INTO remark_wording"
                      + " (remark_id, author, said_at, start_seconds, end_seconds, words)"
                      + " SELECT id, author, said_at, start_seconds, end_seconds, words FROM remark"
                      + " WHERE id = ? AND song_id = ? AND withdrawn = 0",
                  id,
                  songId);
          if (kept == 0) {
            return false;
          }
          Songs.touch(handle, songId);
          handle
              .createUpdate(
                  "UPDATE remark SET author = :author, said_at = :at, start_seconds = :start,"
                      + " end_seconds = :end, words = :words WHERE id = :id")
              .bind("id", id)
              .bind("author", author)
              .bind("at", saidAt.truncatedTo(ChronoUnit.MILLIS).toString())
              .bind("start", startSeconds)
              .bind("end", boxed(endSeconds))
              .bind("words", words)
              .execute();
          return true;
        });
  }

  /** Takes a remark away; false where the song has no such remark. */
  public boolean withdraw(long songId, long id) {
    return database.write(handle -> withdrawn(handle, "remark", songId, id));
  }

  static boolean withdrawn(Handle handle, String table, long songId, long id) {
    Songs.touch(handle, songId);
    return handle.execute(
            "UPDATE " + table + " SET withdrawn = 1 WHERE id = ? AND song_id = ? AND withdrawn = 0",
            id,
            songId)
        > 0;
  }

  private static Double boxed(OptionalDouble seconds) {
    return seconds.isPresent() ? seconds.getAsDouble() : null;
  }

  private static Remark remark(ResultSet row, List<Remark.Wording> earlier) throws SQLException {
    Remark.Wording now = wording(row);
    return new Remark(
        row.getLong("id"),
        now.author(),
        now.saidAt(),
        now.startSeconds(),
        now.endSeconds(),
        now.words(),
        earlier);
  }

  private static Remark.Wording wording(ResultSet row) throws SQLException {
    double end = row.getDouble("end_seconds");
    boolean moment = row.wasNull();
    return new Remark.Wording(
        row.getString("author"),
        Instant.parse(row.getString("said_at")),
        row.getDouble("start_seconds"),
        moment ? OptionalDouble.empty() : OptionalDouble.of(end),
        row.getString("words"));
  }
}
