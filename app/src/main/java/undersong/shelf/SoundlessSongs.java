package undersong.shelf;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import undersong.reading.Provenance;
import undersong.reading.Reading;
import undersong.technique.Technique;

/** Songs of which no recording is at hand: published charts, and what listeners remember. */
public final class SoundlessSongs {
  private final ShelfDatabase database;

  SoundlessSongs(ShelfDatabase database) {
    this.database = database;
  }

  /**
   * A chart with its reading; a known one is replaced where its reading is another.
   *
   * @param identity the same identity is the same chart
   * @param source who wrote it and under which licence; never ""
   */
  public long keepChart(
      String identity, Song.Words words, String source, Reading reading, Provenance provenance) {
    return database.write(
        handle -> put(handle, Origin.CHART, identity, words, source, reading, provenance));
  }

  /** What is remembered, with the reading it makes, as a new song: all of it, or nothing. */
  public long keepMemory(
      String identity, Song.Words words, Memory memory, Reading reading, Provenance provenance) {
    return database.write(
        handle -> {
          long id = put(handle, Origin.MEMORY, identity, words, "", reading, provenance);
          handle
              .createUpdate(
                  """
                  INSERT INTO memory (song_id, author, said_at, numerals, syllables, techniques, words)
                  VALUES (:song, :author, :at, :numerals, :syllables, :techniques, :words)\
                  """)
              .bind("song", id)
              .bind("author", memory.author())
              .bind("at", memory.saidAt().truncatedTo(ChronoUnit.MILLIS).toString())
              .bind("numerals", memory.numerals())
              .bind("syllables", memory.syllables())
              .bind(
                  "techniques",
                  memory.techniques().stream().map(Technique::id).collect(Collectors.joining(" ")))
              .bind("words", memory.words())
              .execute();
          return id;
        });
  }

  /** What is remembered of a song; empty where it is no memory. */
  public Optional<Memory> memory(long songId) {
    return database.read(
        handle ->
            handle
                .createQuery("SELECT * FROM memory WHERE song_id = :song")
                .bind("song", songId)
                .map(
                    (row, context) -> {
                      long recording = row.getLong("recording_id");
                      return new Memory(
                          songId,
                          row.getString("author"),
                          Instant.parse(row.getString("said_at")),
                          row.getString("numerals"),
                          row.getString("syllables"),
                          techniques(row.getString("techniques")),
                          row.getString("words"),
                          recording == 0 ? OptionalLong.empty() : OptionalLong.of(recording));
                    })
                .findOne());
  }

  /** Puts a recording on the shelf beside what is remembered. */
  public void attach(long memoryId, long recordingId) {
    database.write(
        handle ->
            handle.execute(
                "UPDATE memory SET recording_id = ? WHERE song_id = ?", recordingId, memoryId));
  }

  private static List<Technique> techniques(String ids) {
    return Arrays.stream(ids.split(" ", -1))
        .filter(id -> !id.isEmpty())
        .map(Technique::named)
        .toList();
  }

  private static long put(
      Handle handle,
      Origin origin,
      String identity,
      Song.Words words,
      String source,
      Reading reading,
      Provenance provenance) {
    long id =
        handle
            .createQuery(
                """
                INSERT INTO song (content_hash, path, duration_seconds, tag_title, tag_artist,
                    tag_year, studied_at, origin, source)
                VALUES (:hash, '', :duration, :title, :artist, :year, :now, :origin, :source)
                ON CONFLICT (content_hash) DO UPDATE SET
                    duration_seconds = excluded.duration_seconds,
                    tag_title = excluded.tag_title, tag_artist = excluded.tag_artist,
                    tag_year = excluded.tag_year, source = excluded.source
                RETURNING id\
                """)
            .bind("hash", identity)
            .bind("duration", reading.durationSeconds())
            .bind("title", words.title().orElse(""))
            .bind("artist", words.artist().orElse(""))
            .bind("year", words.year().orElse(0))
            .bind("now", Instant.now().truncatedTo(ChronoUnit.MILLIS).toString())
            .bind("origin", origin.word())
            .bind("source", source)
            .mapTo(Long.class)
            .one();
    Readings.store(handle, id, reading, List.of(), provenance);
    return id;
  }
}
