package undersong.shelf;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.jdbi.v3.core.Handle;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.work.Trouble;

/**
 * What the listener said about each song, step by step. Lines are never deleted: taking a step back
 * only marks it, so that it can be brought back. Once {@link #append} has returned, what was said
 * outlives a killed program.
 */
public final class CorrectionLog {
  private final ShelfDatabase database;

  /** What was understood once: the log is read at every word, and grows. */
  private final Map<String, Correction> understood = new ConcurrentHashMap<>();

  CorrectionLog(ShelfDatabase database) {
    this.database = database;
  }

  /**
   * Appends corrections said together, as one step. Steps taken back before can then no longer be
   * brought back by {@link #redo} (by {@link #bringBack} they can).
   */
  public Step append(long songId, String author, Instant saidAt, List<Correction> corrections) {
    if (corrections.isEmpty()) {
      throw new Trouble.WrongUsage("A step of corrections must hold at least one; it holds none.");
    }
    Instant at = saidAt.truncatedTo(ChronoUnit.MILLIS);
    return database.write(
        handle -> {
          Songs.touch(handle, songId);
          handle.execute("UPDATE step SET redoable = 0 WHERE song_id = ?", songId);
          long step =
              insert(
                  handle,
                  "INSERT INTO step (song_id, author, said_at) VALUES (?, ?, ?)",
                  songId,
                  author,
                  at.toString());
          List<CorrectionEntry> entries = new ArrayList<>();
          for (Correction correction : corrections) {
            long id =
                insert(
                    handle,
                    "INSERT INTO correction (step_id, json) VALUES (?, ?)",
                    step,
                    ReadingJson.print(correction));
            entries.add(new CorrectionEntry(id, author, at, correction));
          }
          return new Step(step, author, at, entries, true);
        });
  }

  /** The corrections in force: said and not taken back, oldest first. */
  public Corrections inForce(long songId) {
    return new Corrections(
        steps(songId).stream()
            .filter(Step::inForce)
            .flatMap(step -> step.entries().stream())
            .toList());
  }

  /** Every step ever said, oldest first. */
  public List<Step> steps(long songId) {
    Map<Long, Step> steps = new LinkedHashMap<>();
    database
        .read(
            handle ->
                handle
                    .createQuery(
                        """
                        SELECT step.id AS step_id, correction.id AS id, author, said_at, taken_back, json
                        FROM step JOIN correction ON step_id = step.id
                        WHERE song_id = :song ORDER BY correction.id\
                        """)
                    .bind("song", songId)
                    .map(
                        (row, context) ->
                            new Step(
                                row.getLong("step_id"),
                                row.getString("author"),
                                Instant.parse(row.getString("said_at")),
                                List.of(
                                    new CorrectionEntry(
                                        row.getLong("id"),
                                        row.getString("author"),
                                        Instant.parse(row.getString("said_at")),
                                        understood.computeIfAbsent(
                                            row.getString("json"), ReadingJson::parseCorrection))),
                                row.getObject("taken_back") == null))
                    .list())
        .forEach(step -> steps.merge(step.id(), step, CorrectionLog::joined));
    return List.copyOf(steps.values());
  }

  /**
   * Takes back the newest step in force; empty where nothing is in force.
   *
   * @param by whose steps alone; empty for everybody's
   */
  public Optional<Long> undo(long songId, Optional<String> by) {
    return database.write(
        handle ->
            markOne(
                handle,
                """
                UPDATE step SET redoable = 1, taken_back =
                  (SELECT coalesce(max(taken_back), 0) + 1 FROM step WHERE song_id = :song)
                WHERE id = (SELECT max(id) FROM step WHERE song_id = :song AND taken_back IS NULL
                            AND (:anybody = 1 OR author = :author))
                RETURNING id\
                """,
                songId,
                by));
  }

  /**
   * Brings back the step taken back last; empty where there is none, or something new was said
   * since.
   *
   * @param by whose steps alone; empty for everybody's
   */
  public Optional<Long> redo(long songId, Optional<String> by) {
    return database.write(
        handle ->
            markOne(
                handle,
                """
                UPDATE step SET redoable = 0, taken_back = NULL
                WHERE id = (SELECT id FROM step WHERE song_id = :song AND redoable = 1
                              AND (:anybody = 1 OR author = :author)
                            ORDER BY taken_back DESC LIMIT 1)
                RETURNING id\
                """,
                songId,
                by));
  }

  /** Whether {@link #redo} would bring something back. */
  public boolean canRedo(long songId, Optional<String> by) {
    return database.read(
        handle ->
            handle
                    .createQuery(
                        "SELECT count(*) FROM step WHERE song_id = :song AND redoable = 1"
                            + " AND (:anybody = 1 OR author = :author)")
                    .bind("song", songId)
                    .bind("anybody", by.isEmpty() ? 1 : 0)
                    .bind("author", by.orElse(""))
                    .mapTo(Integer.class)
                    .one()
                > 0);
  }

  /**
   * Takes back one step out of turn; throws {@link Trouble.WrongUsage} where it is not in force.
   */
  public void takeBack(long songId, long stepId) {
    mark(
        songId,
        stepId,
        """
        UPDATE step SET redoable = 1, taken_back =
          (SELECT coalesce(max(taken_back), 0) + 1 FROM step WHERE song_id = :song)
        WHERE id = :step AND song_id = :song AND taken_back IS NULL RETURNING id\
        """,
        "in force");
  }

  /** Brings back one step out of turn, however long ago it was taken back. */
  public void bringBack(long songId, long stepId) {
    mark(
        songId,
        stepId,
        """
        UPDATE step SET redoable = 0, taken_back = NULL
        WHERE id = :step AND song_id = :song AND taken_back IS NOT NULL RETURNING id\
        """,
        "taken back");
  }

  static List<Long> idsInForce(Handle handle, long songId) {
    return handle
        .createQuery(
            """
            SELECT correction.id FROM correction JOIN step ON step_id = step.id
            WHERE song_id = :song AND taken_back IS NULL ORDER BY correction.id\
            """)
        .bind("song", songId)
        .mapTo(Long.class)
        .list();
  }

  private void mark(long songId, long stepId, String sql, String rule) {
    boolean marked =
        database.write(
            handle -> {
              Songs.touch(handle, songId);
              return handle
                  .createQuery(sql)
                  .bind("song", songId)
                  .bind("step", stepId)
                  .mapTo(Long.class)
                  .findOne()
                  .isPresent();
            });
    if (!marked) {
      throw new Trouble.WrongUsage(
          "Step %d of song %d must be %s for this. Maybe it was changed in another window."
              .formatted(stepId, songId, rule));
    }
  }

  private static Optional<Long> markOne(
      Handle handle, String sql, long songId, Optional<String> by) {
    Songs.touch(handle, songId);
    return handle
        .createQuery(sql)
        .bind("song", songId)
        .bind("anybody", by.isEmpty() ? 1 : 0)
        .bind("author", by.orElse(""))
        .mapTo(Long.class)
        .findOne();
  }

  private static long insert(Handle handle, String sql, Object... values) {
    var update = handle.createUpdate(sql);
    for (int i = 0; i < values.length; i++) {
      update.bind(i, values[i]);
    }
    return update.executeAndReturnGeneratedKeys("id").mapTo(Long.class).one();
  }

  private static Step joined(Step first, Step next) {
    List<CorrectionEntry> entries = new ArrayList<>(first.entries());
    entries.addAll(next.entries());
    return new Step(first.id(), first.author(), first.saidAt(), entries, first.inForce());
  }
}
