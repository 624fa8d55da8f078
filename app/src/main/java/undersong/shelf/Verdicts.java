package undersong.shelf;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jdbi.v3.core.result.RowView;
import undersong.technique.Ranking;
import undersong.technique.Technique;
import undersong.time.Span;
import undersong.work.Trouble;

/** What listeners said of findings. Nothing is deleted; taking one back only marks it. */
public final class Verdicts {
  private static final String COLUMNS =
      "SELECT id, technique, start_seconds, end_seconds, author, said_at, answer, words ";

  private final ShelfDatabase database;

  Verdicts(ShelfDatabase database) {
    this.database = database;
  }

  /** Keeps a verdict; gives it with its number. */
  public Verdict say(
      long songId,
      Technique technique,
      Span span,
      Verdict.Answer answer,
      String words,
      String author,
      Instant saidAt) {
    Verdict said =
        new Verdict(
            0, technique, span, author, saidAt.truncatedTo(ChronoUnit.MILLIS), answer, words);
    long id =
        database.write(
            handle -> {
              Songs.touch(handle, songId);
              return handle
                  .createUpdate(
                      """
                      INSERT INTO verdict (song_id, technique, start_seconds, end_seconds, author,
                          said_at, answer, words)
                      VALUES (:song, :technique, :start, :end, :author, :at, :answer, :words)\
                      """)
                  .bind("song", songId)
                  .bind("technique", technique.id())
                  .bind("start", span.startSeconds())
                  .bind("end", span.endSeconds())
                  .bind("author", author)
                  .bind("at", said.saidAt().toString())
                  .bind("answer", answer.name().toLowerCase(Locale.ROOT))
                  .bind("words", words)
                  .executeAndReturnGeneratedKeys("id")
                  .mapTo(Long.class)
                  .one();
            });
    return new Verdict(id, technique, span, author, said.saidAt(), answer, words);
  }

  /** Takes back one verdict; throws {@link Trouble.WrongUsage} where it is not in force. */
  public void takeBack(long songId, long verdictId) {
    int marked =
        database.write(
            handle -> {
              Songs.touch(handle, songId);
              return handle.execute(
                  "UPDATE verdict SET taken_back = 1"
                      + " WHERE id = ? AND song_id = ? AND taken_back = 0",
                  verdictId,
                  songId);
            });
    if (marked == 0) {
      throw new Trouble.WrongUsage(
          "Verdict %d of song %d must be in force to be taken back. Maybe it was taken back in another window."
              .formatted(verdictId, songId));
    }
  }

  /** Verdicts in force on a song, oldest first. */
  public List<Verdict> of(long songId) {
    return database.read(
        handle ->
            handle
                .createQuery(
                    COLUMNS + "FROM verdict WHERE song_id = :song AND taken_back = 0 ORDER BY id")
                .bind("song", songId)
                .reduceRows(
                    new java.util.ArrayList<>(),
                    (List<Verdict> verdicts, RowView row) -> {
                      verdicts.add(verdict(row));
                      return verdicts;
                    }));
  }

  private static Verdict verdict(RowView row) {
    return new Verdict(
        row.getColumn("id", Long.class),
        Technique.named(row.getColumn("technique", String.class)),
        new Span(
            row.getColumn("start_seconds", Double.class),
            row.getColumn("end_seconds", Double.class)),
        row.getColumn("author", String.class),
        Instant.parse(row.getColumn("said_at", String.class)),
        Verdict.Answer.valueOf(row.getColumn("answer", String.class).toUpperCase(Locale.ROOT)),
        row.getColumn("words", String.class));
  }

  /** What this shelf's verdicts teach the ranking: those in force said since it was last reset. */
  public Map<Technique, Ranking.Verdicts> taught() {
    Map<Technique, Ranking.Verdicts> taught = new EnumMap<>(Technique.class);
    database.<Object>read(
        handle -> {
          handle
              .createQuery(
                  """
                  SELECT technique, sum(CASE WHEN answer = 'yes' THEN 1 ELSE 0 END) AS yes,
                      sum(CASE WHEN answer = 'no' THEN 1 ELSE 0 END) AS no
                  FROM verdict
                  WHERE taken_back = 0
                    AND id > (SELECT coalesce(max(last_verdict), 0) FROM ranking_reset)
                  GROUP BY technique\
                  """)
              .map(
                  (row, context) ->
                      taught.put(
                          Technique.named(row.getString("technique")),
                          new Ranking.Verdicts(row.getInt("yes"), row.getInt("no"))))
              .list();
          return taught;
        });
    return taught;
  }

  /** The ranking forgets what was said so far; the verdicts themselves stay. */
  public void resetRanking(String author, Instant saidAt) {
    database.write(
        handle ->
            handle.execute(
                "INSERT INTO ranking_reset (author, said_at, last_verdict)"
                    + " VALUES (?, ?, (SELECT coalesce(max(id), 0) FROM verdict))",
                author,
                saidAt.truncatedTo(ChronoUnit.MILLIS).toString()));
  }
}
