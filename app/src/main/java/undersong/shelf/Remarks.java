package undersong.shelf;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jdbi.v3.core.Handle;

/** The remarks on each song. None is ever deleted; one taken away is only no longer shown. */
public final class Remarks {
  private static final String COLUMNS = "id, author, said_at, start_seconds, end_seconds, words";

  private final ShelfDatabase database;

  Remarks(ShelfDatabase database) {
    this.database = database;
  }

  /** All that were not taken away, by place. */
  public List<Remark> of(long songId) {
    return database.read(
        handle ->
            handle
                .createQuery(
                    "SELECT "
                        + COLUMNS
                        + " FROM remark WHERE song_id = :song AND withdrawn = 0"
                        + " ORDER BY start_seconds, id")
                .bind("song", songId)
                .map((row, context) -> remark(row))
                .list());
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
        .map((row, context) -> remark(row))
        .one();
  }

  /** Says it in other words or of another place; empty where the song has no such remark. */
  public Optional<Remark> change(
      long songId, long id, double startSeconds, OptionalDouble endSeconds, String words) {
    return database.write(
        handle ->
            handle
                .createQuery(
                    "UPDATE remark SET start_seconds = :start, end_seconds = :end, words = :words"
                        + " WHERE id = :id AND song_id = :song AND withdrawn = 0 RETURNING "
                        + COLUMNS)
                .bind("song", songId)
                .bind("id", id)
                .bind("start", startSeconds)
                .bind("end", boxed(endSeconds))
                .bind("words", words)
                .map((row, context) -> remark(row))
                .findOne());
  }

  /** Takes a remark away; false where the song has no such remark. */
  public boolean withdraw(long songId, long id) {
    return database.write(handle -> withdrawn(handle, "remark", songId, id));
  }

  static boolean withdrawn(Handle handle, String table, long songId, long id) {
    return handle.execute(
            "UPDATE " + table + " SET withdrawn = 1 WHERE id = ? AND song_id = ? AND withdrawn = 0",
            id,
            songId)
        > 0;
  }

  private static Double boxed(OptionalDouble seconds) {
    return seconds.isPresent() ? seconds.getAsDouble() : null;
  }

  private static Remark remark(ResultSet row) throws SQLException {
    double end = row.getDouble("end_seconds");
    return new Remark(
        row.getLong("id"),
        row.getString("author"),
        Instant.parse(row.getString("said_at")),
        row.getDouble("start_seconds"),
        row.getObject("end_seconds") == null ? OptionalDouble.empty() : OptionalDouble.of(end),
        row.getString("words"));
  }
}
