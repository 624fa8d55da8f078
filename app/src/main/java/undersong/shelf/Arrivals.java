package undersong.shelf;

import java.nio.file.Path;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Recordings on their way to the shelf from this desk, remembered so that a killed program can go
 * on. Those of other desks on the same server are theirs.
 */
public final class Arrivals {
  private static final String COLUMNS = "id, name, path, state, song_id, message";

  private final ShelfDatabase database;

  Arrivals(ShelfDatabase database) {
    this.database = database;
  }

  /** Oldest first. */
  public List<Arrival> list() {
    return database.read(
        handle ->
            handle
                .createQuery("SELECT " + COLUMNS + " FROM arrival WHERE desk = :desk ORDER BY id")
                .bind("desk", database.desk())
                .map((row, context) -> arrival(row))
                .list());
  }

  public Optional<Arrival> find(long id) {
    return database.read(
        handle ->
            handle
                .createQuery("SELECT " + COLUMNS + " FROM arrival WHERE id = :id AND desk = :desk")
                .bind("desk", database.desk())
                .bind("id", id)
                .map((row, context) -> arrival(row))
                .findOne());
  }

  /** One that waits. */
  public Arrival add(String name, Path path, Instant arrivedAt) {
    return database.write(
        handle ->
            handle
                .createQuery(
                    "INSERT INTO arrival (name, path, arrived_at, state, desk)"
                        + " VALUES (:name, :path, :at, 'WAITING', :desk) RETURNING "
                        + COLUMNS)
                .bind("name", name)
                .bind("path", path.toString())
                .bind("desk", database.desk())
                .bind("at", arrivedAt.truncatedTo(ChronoUnit.MILLIS).toString())
                .map((row, context) -> arrival(row))
                .one());
  }

  public void mark(long id, Arrival.State state, OptionalLong songId, String message) {
    Long song = songId.isPresent() ? songId.getAsLong() : null;
    database.write(
        handle ->
            handle.execute(
                "UPDATE arrival SET state = ?, song_id = ?, message = ? WHERE id = ?",
                state.name(),
                song,
                message,
                id));
  }

  /** Takes one off the list. */
  public void forget(long id) {
    database.write(handle -> handle.execute("DELETE FROM arrival WHERE id = ?", id));
  }

  private static Arrival arrival(ResultSet row) throws SQLException {
    long song = row.getLong("song_id");
    return new Arrival(
        row.getLong("id"),
        row.getString("name"),
        Path.of(row.getString("path")),
        Arrival.State.valueOf(row.getString("state")),
        song == 0 ? OptionalLong.empty() : OptionalLong.of(song),
        row.getString("message"));
  }
}
