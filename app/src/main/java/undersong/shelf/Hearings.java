package undersong.shelf;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import undersong.reading.Correction;

/** What listeners heard for themselves in each song. Kept for good, as remarks are. */
public final class Hearings {
  private static final String COLUMNS = "id, author, said_at, json, decision";

  private final ShelfDatabase database;

  Hearings(ShelfDatabase database) {
    this.database = database;
  }

  /** All that were not taken away, oldest first. */
  public List<Hearing> of(long songId) {
    return database.read(
        handle ->
            handle
                .createQuery(
                    "SELECT "
                        + COLUMNS
                        + " FROM hearing WHERE song_id = :song AND withdrawn = 0 ORDER BY id")
                .bind("song", songId)
                .map((row, context) -> hearing(row))
                .list());
  }

  public Hearing add(long songId, String author, Instant saidAt, Correction heard) {
    return database.write(
        handle ->
            touched(handle, songId)
                .createQuery(
                    "INSERT INTO hearing (song_id, author, said_at, json)"
                        + " VALUES (:song, :author, :at, :json) RETURNING "
                        + COLUMNS)
                .bind("song", songId)
                .bind("author", author)
                .bind("at", saidAt.truncatedTo(ChronoUnit.MILLIS).toString())
                .bind("json", ReadingJson.print(heard))
                .map((row, context) -> hearing(row))
                .one());
  }

  /** Notes what was decided; empty where the song has no such hearing. */
  public Optional<Hearing> decide(long songId, long id, Hearing.Decision decision) {
    return database.write(
        handle ->
            touched(handle, songId)
                .createQuery(
                    "UPDATE hearing SET decision = :decision"
                        + " WHERE id = :id AND song_id = :song AND withdrawn = 0 RETURNING "
                        + COLUMNS)
                .bind("song", songId)
                .bind("id", id)
                .bind("decision", decision.name())
                .map((row, context) -> hearing(row))
                .findOne());
  }

  /** Takes one away; false where the song has no such hearing. */
  public boolean withdraw(long songId, long id) {
    return database.write(handle -> Remarks.withdrawn(handle, "hearing", songId, id));
  }

  private static Handle touched(Handle handle, long songId) {
    Songs.touch(handle, songId);
    return handle;
  }

  private static Hearing hearing(ResultSet row) throws SQLException {
    return new Hearing(
        row.getLong("id"),
        row.getString("author"),
        Instant.parse(row.getString("said_at")),
        ReadingJson.parseCorrection(row.getString("json")),
        Hearing.Decision.valueOf(row.getString("decision")));
  }
}
