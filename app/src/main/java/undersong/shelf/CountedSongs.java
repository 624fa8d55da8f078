package undersong.shelf;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import undersong.trend.CountedSong;

/** What is counted of each song: numerals, surprise, techniques. */
public final class CountedSongs {
  private final ShelfDatabase database;

  CountedSongs(ShelfDatabase database) {
    this.database = database;
  }

  /**
   * Songs whose counts are not those of their reading, by number.
   *
   * @param version of the way of counting
   * @param findingVersion of the finders
   */
  public List<Long> stale(String version, String findingVersion) {
    return database.read(
        handle ->
            handle
                .createQuery(
                    """
                    SELECT reading.song_id FROM reading
                    LEFT JOIN harmony_line ON harmony_line.song_id = reading.song_id
                      AND harmony_line.revision = reading.revision
                      AND harmony_line.version = :version
                    LEFT JOIN found ON found.song_id = reading.song_id
                      AND found.revision = reading.revision AND found.version = :findings
                    WHERE harmony_line.song_id IS NULL OR found.song_id IS NULL
                    ORDER BY reading.song_id\
                    """)
                .bind("version", version)
                .bind("findings", findingVersion)
                .mapTo(Long.class)
                .list());
  }

  /** Replaces what is kept of a song. */
  public void keep(
      long songId, int revision, String version, String numerals, Optional<Double> chordBits) {
    database.write(
        handle ->
            handle
                .createUpdate(
                    """
                    INSERT INTO harmony_line (song_id, revision, version, numerals, chord_bits)
                    VALUES (:song, :revision, :version, :numerals, :bits)
                    ON CONFLICT (song_id) DO UPDATE SET revision = excluded.revision,
                        version = excluded.version, numerals = excluded.numerals,
                        chord_bits = excluded.chord_bits\
                    """)
                .bind("song", songId)
                .bind("revision", revision)
                .bind("version", version)
                .bind("numerals", numerals)
                .bind("bits", chordBits.orElse(null))
                .execute());
  }

  /** Every song as it was last counted; findings under one half do not count. */
  public List<CountedSong> list() {
    return database.read(
        handle -> {
          Map<Long, Set<String>> techniques = new HashMap<>();
          handle
              .createQuery(
                  "SELECT DISTINCT song_id, technique FROM finding WHERE probability >= :from")
              .bind("from", FindingIndex.COUNTS_FROM)
              .map((row, context) -> Map.entry(row.getLong(1), row.getString(2)))
              .forEach(
                  found ->
                      techniques
                          .computeIfAbsent(found.getKey(), song -> new HashSet<>())
                          .add(found.getValue()));
          return handle
              .createQuery(
                  "SELECT "
                      + Songs.COLUMNS
                      + ", numerals, chord_bits FROM song"
                      + " JOIN harmony_line ON song_id = song.id ORDER BY song.id")
              .map(
                  (row, context) -> {
                    Song song = Songs.song(row);
                    double bits = row.getDouble("chord_bits");
                    boolean silent = row.wasNull();
                    return new CountedSong(
                        song.id(),
                        song.title(),
                        song.artist(),
                        song.year(),
                        song.origin().word(),
                        techniques.getOrDefault(song.id(), Set.of()),
                        row.getString("numerals"),
                        silent ? Optional.empty() : Optional.of(bits));
                  })
              .list();
        });
  }
}
