package undersong.shelf;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import undersong.technique.Finding;
import undersong.technique.Technique;

/** What is found in which song: kept for search and for how common a technique is here. */
public final class FindingIndex {
  /** Less probable findings are kept, but do not count as found. */
  static final double COUNTS_FROM = 0.5;

  private final ShelfDatabase database;

  FindingIndex(ShelfDatabase database) {
    this.database = database;
  }

  /** Whether the findings kept are those of this revision, made by this version. */
  public boolean isCurrent(long songId, int revision, String version) {
    return database.read(
        handle ->
            handle
                .createQuery(
                    "SELECT 1 FROM found WHERE song_id = :song AND revision = :revision"
                        + " AND version = :version")
                .bind("song", songId)
                .bind("revision", revision)
                .bind("version", version)
                .mapTo(Integer.class)
                .findOne()
                .isPresent());
  }

  /** Replaces what is kept of a song. */
  public void keep(long songId, int revision, String version, List<Finding> findings) {
    database.<Object>write(
        handle -> {
          Songs.touch(handle, songId);
          handle.execute("DELETE FROM finding WHERE song_id = ?", songId);
          handle.execute(
              """
              INSERT INTO found (song_id, revision, version) VALUES (?, ?, ?)
              ON CONFLICT (song_id) DO UPDATE SET revision = excluded.revision,
                  version = excluded.version\
              """,
              songId,
              revision,
              version);
          if (!findings.isEmpty()) {
            var batch =
                handle.prepareBatch(
                    """
                    INSERT INTO finding (song_id, technique, start_seconds, end_seconds, probability)
                    VALUES (:song, :technique, :start, :end, :probability)\
                    """);
            for (Finding finding : findings) {
              batch
                  .bind("song", songId)
                  .bind("technique", finding.technique().id())
                  .bind("start", finding.span().startSeconds())
                  .bind("end", finding.span().endSeconds())
                  .bind("probability", finding.probability())
                  .add();
            }
            batch.execute();
          }
          return null;
        });
  }

  /** Replaces what is kept of a song from memory: each technique over its whole length. */
  public void keepSaid(
      long songId, int revision, String version, List<Technique> said, double durationSeconds) {
    keep(songId, revision, version, List.of());
    database.<Object>write(
        handle -> {
          Songs.touch(handle, songId);
          for (Technique technique : said) {
            handle.execute(
                "INSERT INTO finding (song_id, technique, start_seconds, end_seconds, probability)"
                    + " VALUES (?, ?, 0, ?, 1)",
                songId,
                technique.id(),
                durationSeconds);
          }
          return null;
        });
  }

  /** Recordings whose findings are kept; charts and memories are no measure of what is common. */
  public int songs() {
    return database.read(
        handle ->
            handle
                .createQuery(
                    "SELECT count(*) FROM found JOIN song ON song.id = song_id"
                        + " WHERE origin = 'recording'")
                .mapTo(Integer.class)
                .one());
  }

  /** How many of those recordings have each technique. */
  public Map<Technique, Integer> songsWith() {
    Map<Technique, Integer> songs = new EnumMap<>(Technique.class);
    database.<Object>read(
        handle ->
            handle
                .createQuery(
                    "SELECT technique, count(DISTINCT song_id) AS songs FROM finding"
                        + " JOIN song ON song.id = song_id WHERE origin = 'recording'"
                        + " AND probability >= :from GROUP BY technique")
                .bind("from", COUNTS_FROM)
                .map(
                    (row, context) ->
                        songs.put(Technique.named(row.getString("technique")), row.getInt("songs")))
                .list());
    return songs;
  }
}
