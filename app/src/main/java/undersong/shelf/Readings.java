package undersong.shelf;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import undersong.reading.Facet;
import undersong.reading.Meter;
import undersong.reading.Provenance;
import undersong.reading.Reading;

/** The latest reading of each song. */
public final class Readings {
  private final ShelfDatabase database;
  private final WrittenFacets written = new WrittenFacets();

  Readings(ShelfDatabase database) {
    this.database = database;
  }

  /** Revision of the latest reading; 0 where there is none. */
  public int revision(long songId) {
    return database.read(handle -> revision(handle, songId));
  }

  /**
   * The latest reading. Empty where there is none, or where a program with other facets wrote it:
   * it can be derived again, so it is not worth an error.
   */
  public Optional<StoredReading> latest(long songId) {
    return database.read(
        handle ->
            handle
                .createQuery(
                    "SELECT revision, in_force, provenance, json FROM reading WHERE song_id ="
                        + " :song")
                .bind("song", songId)
                .map(
                    (row, context) ->
                        parsed(
                            songId,
                            row.getInt("revision"),
                            row.getString("in_force"),
                            row.getString("provenance"),
                            row.getString("json")))
                .findOne()
                .flatMap(reading -> reading));
  }

  /**
   * Stores a reading as the next revision. Empty, and nothing stored, if the corrections in force
   * are no longer those it was derived with: then it must be derived again.
   */
  public Optional<StoredReading> store(
      long songId, Reading reading, List<Long> inForce, Provenance provenance) {
    // Written out before others are kept waiting.
    String json = written.print(reading);
    return database.write(handle -> store(handle, songId, reading, json, inForce, provenance));
  }

  /** Does all that {@link #store} does, and takes it back: the next one is quick. */
  public void rehearse(long songId, Reading reading, List<Long> inForce, Provenance provenance) {
    String json = written.print(reading);
    database.<Object>write(
        handle -> {
          store(handle, songId, reading, json, inForce, provenance);
          handle.rollback();
          return null;
        });
  }

  static Optional<StoredReading> store(
      Handle handle, long songId, Reading reading, List<Long> inForce, Provenance provenance) {
    return store(handle, songId, reading, ReadingJson.print(reading), inForce, provenance);
  }

  private static Optional<StoredReading> store(
      Handle handle,
      long songId,
      Reading reading,
      String json,
      List<Long> inForce,
      Provenance provenance) {
    if (!CorrectionLog.idsInForce(handle, songId).equals(inForce)) {
      return Optional.empty();
    }
    int revision = revision(handle, songId) + 1;
    handle
        .createUpdate(
            """
            INSERT INTO reading (song_id, revision, in_force, provenance, json, tempo_bpm, meter,
                main_key)
            VALUES (:song, :revision, :inForce, :provenance, :json, :tempo, :meter, :key)
            ON CONFLICT (song_id) DO UPDATE SET revision = excluded.revision,
                in_force = excluded.in_force, provenance = excluded.provenance,
                json = excluded.json, tempo_bpm = excluded.tempo_bpm, meter = excluded.meter,
                main_key = excluded.main_key\
            """)
        .bind("song", songId)
        .bind("revision", revision)
        .bind("inForce", inForce.toString())
        .bind("provenance", ReadingJson.print(provenance))
        .bind("json", json)
        .bind("tempo", tempoBpm(reading))
        .bind("meter", meter(reading))
        .bind("key", key(reading))
        .execute();
    SearchLines.put(handle, songId, revision, reading);
    Songs.touch(handle, songId);
    return Optional.of(new StoredReading(songId, revision, inForce, provenance, reading));
  }

  private static int revision(Handle handle, long songId) {
    return handle
        .createQuery("SELECT revision FROM reading WHERE song_id = :song")
        .bind("song", songId)
        .mapTo(Integer.class)
        .findOne()
        .orElse(0);
  }

  private static Optional<StoredReading> parsed(
      long songId, int revision, String inForce, String provenance, String json) {
    try {
      return Optional.of(
          new StoredReading(
              songId,
              revision,
              ids(inForce),
              ReadingJson.parseProvenance(provenance),
              ReadingJson.parseReading(json)));
    } catch (IllegalArgumentException otherShape) {
      return Optional.empty();
    }
  }

  private static List<Long> ids(String json) {
    String inside = json.substring(1, json.length() - 1).strip();
    return inside.isEmpty()
        ? List.of()
        : Arrays.stream(inside.split(","))
            .map(id -> Long.valueOf(id.strip()))
            .collect(Collectors.toList());
  }

  private static double tempoBpm(Reading reading) {
    return reading
        .find(Facet.BEATS)
        .filter(beats -> !beats.grid().isEmpty())
        .map(beats -> beats.grid().medianBpm())
        .orElse(0.0);
  }

  private static String meter(Reading reading) {
    return reading
        .find(Facet.METER)
        .filter(meter -> !meter.bars().isEmpty())
        .map(Meter::mainSignature)
        .map(Object::toString)
        .orElse("");
  }

  private static String key(Reading reading) {
    return reading
        .find(Facet.KEYS)
        .flatMap(keys -> keys.mainKey())
        .map(Object::toString)
        .orElse("");
  }
}
