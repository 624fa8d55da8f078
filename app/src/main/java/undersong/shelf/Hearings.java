package undersong.shelf;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import undersong.reading.Correction;

/**
 * What listeners heard for themselves in each song, and every decision about it. Kept for good, as
 * remarks are.
 */
public final class Hearings {
  private static final String COLUMNS = "id, author, said_at, json, decision";

  private final ShelfDatabase database;

  Hearings(ShelfDatabase database) {
    this.database = database;
  }

  /** All that were not taken away, oldest first. */
  public List<Hearing> of(long songId) {
    return database.read(
        handle -> {
          Map<Long, List<Hearing.Decided>> decided =
              handle
                  .createQuery(
                      "SELECT hearing_id, d.author, d.said_at, d.decision FROM hearing_decision d"
                          + " JOIN hearing ON hearing.id = hearing_id"
                          + " WHERE song_id = :song ORDER BY d.id")
                  .bind("song", songId)
                  .map((row, context) -> Map.entry(row.getLong("hearing_id"), decided(row)))
                  .collect(
                      Collectors.groupingBy(
                          Map.Entry::getKey,
                          Collectors.mapping(Map.Entry::getValue, Collectors.toList())));
          return handle
              .createQuery(
                  "SELECT "
                      + COLUMNS
                      + " FROM hearing WHERE song_id = :song AND withdrawn = 0 ORDER BY id")
              .bind("song", songId)
              .map(
                  (row, context) ->
                      hearing(row, decided.getOrDefault(row.getLong("id"), List.of())))
              .list();
        });
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
                .map((row, context) -> hearing(row, List.of()))
                .one());
  }

  /**
   * Notes what was decided, beside what was decided before. Whether the song has such a hearing.
   *
   * @param author who decides
   */
  public boolean decide(
      long songId, long id, String author, Instant saidAt, Hearing.Decision decision) {
    return database.write(
        handle -> {
          int decided =
              touched(handle, songId)
                  .execute(
                      "UPDATE hearing SET decision = ?"
                          + " WHERE id = ? AND song_id = ? AND withdrawn = 0",
                      decision.name(),
                      id,
                      songId);
          if (decided > 0) {
            handle.execute(
                "INSERT INTO hearing_decision (hearing_id, author, said_at, decision)"
                    + " VALUES (?, ?, ?, ?)",
                id,
                author,
                saidAt.truncatedTo(ChronoUnit.MILLIS).toString(),
                decision.name());
          }
          return decided > 0;
        });
  }

  /** Takes one away; false where the song has no such hearing. */
  public boolean withdraw(long songId, long id) {
    return database.write(handle -> Remarks.withdrawn(handle, "hearing", songId, id));
  }

  private static Handle touched(Handle handle, long songId) {
    Songs.touch(handle, songId);
    return handle;
  }

  private static Hearing.Decided decided(ResultSet row) throws SQLException {
    return new Hearing.Decided(
        row.getString("author"),
        Instant.parse(row.getString("said_at")),
        Hearing.Decision.valueOf(row.getString("decision")));
  }

  private static Hearing hearing(ResultSet row, List<Hearing.Decided> decisions)
      throws SQLException {
    return new Hearing(
        row.getLong("id"),
        row.getString("author"),
        Instant.parse(row.getString("said_at")),
        ReadingJson.parseCorrection(row.getString("json")),
        Hearing.Decision.valueOf(row.getString("decision")),
        decisions);
  }
}
