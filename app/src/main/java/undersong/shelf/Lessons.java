package undersong.shelf;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.jdbi.v3.core.Handle;

/** The lessons on each song, as JSON texts; every version ever saved is kept. */
public final class Lessons {
  private static final String LATEST =
      "SELECT lesson.id, lesson.song_id, lesson.beside, v.version, v.author, v.saved_at, v.json"
          + " FROM lesson JOIN lesson_version v ON v.lesson_id = lesson.id AND v.version = (SELECT"
          + " MAX(version) FROM lesson_version WHERE lesson_id = lesson.id) WHERE lesson.withdrawn"
          + " = 0 AND ";

  private final ShelfDatabase database;

  Lessons(ShelfDatabase database) {
    this.database = database;
  }

  /** The lessons on a song, oldest first. */
  public List<StoredLesson> of(long songId) {
    return database.read(
        handle ->
            handle
                .createQuery(LATEST + "lesson.song_id = :song ORDER BY lesson.id")
                .bind("song", songId)
                .map((row, context) -> lesson(row))
                .list());
  }

  /** Empty where there is none, or it was taken away. */
  public Optional<StoredLesson> get(long lessonId) {
    return database.read(handle -> latest(handle, lessonId));
  }

  /** A new lesson, version 1. */
  public StoredLesson add(long songId, String author, Instant savedAt, String json) {
    return database.write(
        handle -> added(handle, songId, OptionalLong.empty(), author, savedAt, json));
  }

  /**
   * Saves the next version. Where the lesson stands at another version than its author saw, nothing
   * is overwritten: it becomes a lesson of its own beside the other. Empty, and nothing written,
   * where the lesson is gone.
   */
  public Optional<StoredLesson> save(
      long lessonId, int seenVersion, String author, Instant savedAt, String json) {
    return database.write(
        handle -> {
          Optional<StoredLesson> now = latest(handle, lessonId);
          if (now.isEmpty()) {
            return now;
          }
          if (now.get().version() != seenVersion) {
            return Optional.of(
                added(
                    handle, now.get().songId(), OptionalLong.of(lessonId), author, savedAt, json));
          }
          Songs.touch(handle, now.get().songId());
          put(handle, lessonId, seenVersion + 1, author, savedAt, json);
          return latest(handle, lessonId);
        });
  }

  /** Whether there was such a lesson to take away. */
  public boolean withdraw(long lessonId) {
    return database.write(
        handle ->
            handle.execute(
                    "UPDATE lesson SET withdrawn = 1 WHERE id = ? AND withdrawn = 0", lessonId)
                == 1);
  }

  private static StoredLesson added(
      Handle handle,
      long songId,
      OptionalLong beside,
      String author,
      Instant savedAt,
      String json) {
    Songs.touch(handle, songId);
    long id =
        handle
            .createQuery(
                "INSERT INTO lesson (song_id, beside) VALUES (:song, :beside) RETURNING id")
            .bind("song", songId)
            .bind("beside", beside.isPresent() ? (Long) beside.getAsLong() : null)
            .mapTo(Long.class)
            .one();
    put(handle, id, 1, author, savedAt, json);
    return latest(handle, id).orElseThrow();
  }

  private static void put(
      Handle handle, long id, int version, String author, Instant savedAt, String json) {
    handle.execute(
        "INSERT INTO lesson_version (lesson_id, version, author, saved_at, json)"
            + " VALUES (?, ?, ?, ?, ?)",
        id,
        version,
        author,
        savedAt.truncatedTo(ChronoUnit.MILLIS).toString(),
        json);
  }

  private static Optional<StoredLesson> latest(Handle handle, long lessonId) {
    return handle
        .createQuery(LATEST + "lesson.id = :id")
        .bind("id", lessonId)
        .map((row, context) -> lesson(row))
        .findOne();
  }

  private static StoredLesson lesson(ResultSet row) throws SQLException {
    long beside = row.getLong("beside");
    return new StoredLesson(
        row.getLong("id"),
        row.getLong("song_id"),
        row.getInt("version"),
        row.getString("author"),
        Instant.parse(row.getString("saved_at")),
        row.getString("json"),
        beside == 0 ? OptionalLong.empty() : OptionalLong.of(beside));
  }
}
