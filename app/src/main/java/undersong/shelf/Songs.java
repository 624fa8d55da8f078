package undersong.shelf;

import java.nio.file.Path;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.result.ResultIterable;
import org.jdbi.v3.core.statement.Update;
import undersong.work.Trouble;

/** The songs of a shelf. */
public final class Songs {
  static final String COLUMNS =
      "song.id, content_hash, path, duration_seconds, tag_title, tag_artist, tag_year, said_title,"
          + " said_artist, said_year, studied_at, origin, source";

  private final ShelfDatabase database;

  /** On a server, the path is the one on this machine where the song was studied here. */
  private final String columns;

  private final String listed;
  private final ListedSongs all;

  Songs(ShelfDatabase database) {
    this.database = database;
    this.columns =
        database.isServer()
            ? COLUMNS.replace(
                " path,",
                " coalesce((SELECT f.path FROM song_file f WHERE f.song_id = song.id AND f.desk = '"
                    + database.desk()
                    + "'), song.path) AS path,")
            : COLUMNS;
    // The index spares reading the readings themselves; a server keeps them apart by itself.
    this.listed =
        "SELECT "
            + columns
            + ", tempo_bpm, meter, main_key FROM song JOIN reading"
            + (database.isServer() ? "" : " INDEXED BY reading_listed")
            + " ON song_id = song.id";
    this.all = new ListedSongs(database, this::changedAfter);
  }

  private ResultIterable<ShelfEntry> changedAfter(Handle handle, long change) {
    return handle
        .createQuery(listed + " WHERE song.changed > :change")
        .setFetchSize(ShelfDatabase.ROWS_AT_ONCE)
        .bind("change", change)
        .map((row, context) -> entry(row));
  }

  /** Marks a song as changed by the change that is being written. */
  static void touch(Handle handle, long songId) {
    handle.execute(
        "UPDATE song SET changed = (SELECT changes FROM shelf_state) WHERE id = ?", songId);
  }

  /** What changed after a change; 0 for everything. */
  public ChangedSongs changedSince(long change) {
    return database.read(
        handle -> {
          long changes = ShelfDatabase.changes(handle);
          Map<Long, ChangedSongs.Change> songs = new HashMap<>();
          if (changes != change) {
            handle
                .createQuery(
                    "SELECT id, changed, revision FROM song JOIN reading ON song_id = id"
                        + " WHERE changed > :change")
                .bind("change", change)
                .map(
                    (row, context) ->
                        Map.entry(
                            row.getLong(1), new ChangedSongs.Change(row.getLong(2), row.getInt(3))))
                .forEach(one -> songs.put(one.getKey(), one.getValue()));
          }
          return new ChangedSongs(changes, songs);
        });
  }

  /** The last change of one song; empty where it has no reading. */
  public Optional<ChangedSongs.Change> lastChange(long songId) {
    return database.read(
        handle ->
            handle
                .createQuery(
                    "SELECT changed, revision FROM song JOIN reading ON song_id = id"
                        + " WHERE id = :id")
                .bind("id", songId)
                .map((row, context) -> new ChangedSongs.Change(row.getLong(1), row.getInt(2)))
                .findOne());
  }

  /** The song of this number; throws {@link Trouble.NotOnShelf}. */
  public Song get(long id) {
    return database
        .read(
            handle ->
                handle
                    .createQuery("SELECT " + columns + " FROM song WHERE id = :id")
                    .bind("id", id)
                    .map((row, context) -> song(row))
                    .findOne())
        .orElseThrow(
            () ->
                new Trouble.NotOnShelf(
                    "Song %d is not on this shelf. Maybe it lies on another one; the command \"shelf\" lists them."
                        .formatted(id)));
  }

  public Optional<Song> withContent(String contentHash) {
    return database.read(handle -> withContent(handle, contentHash));
  }

  /** Every song whose title, artist, year, key, meter or file name holds each of the words. */
  public List<ShelfEntry> list(String query) {
    List<String> words =
        Arrays.stream(query.strip().toLowerCase(Locale.ROOT).split("\\s+"))
            .filter(word -> !word.isEmpty())
            .toList();
    return all.all().stream()
        .filter(song -> words.stream().allMatch(song.text()::contains))
        .map(ListedSongs.Listed::entry)
        .toList();
  }

  /** One song as a list shows it; throws {@link Trouble.NotOnShelf} where it has no reading. */
  public ShelfEntry entry(long id) {
    return database
        .read(
            handle ->
                handle
                    .createQuery(listed + " WHERE song.id = :id")
                    .bind("id", id)
                    .map((row, context) -> entry(row))
                    .findOne())
        .orElseThrow(
            () -> new Trouble.NotOnShelf("There is no song %d with a reading.".formatted(id)));
  }

  private static ShelfEntry entry(ResultSet row) throws SQLException {
    return new ShelfEntry(
        song(row), row.getDouble("tempo_bpm"), row.getString("meter"), row.getString("main_key"));
  }

  /**
   * The one song that is meant by a number, a title, a path or a file name; throws {@link
   * Trouble.NotOnShelf} where there is none and {@link Trouble.WrongUsage} where several fit.
   */
  public Song named(String text) {
    List<Song> songs = list("").stream().map(ShelfEntry::song).toList();
    List<Song> meant = songs.stream().filter(song -> isNumber(song, text)).toList();
    if (meant.isEmpty()) {
      meant = songs.stream().filter(song -> isCalled(song, text)).toList();
    }
    if (meant.isEmpty()) {
      throw new Trouble.NotOnShelf(
          """
          "%s" is not on this shelf: it must be the number, title or file of a studied song. \
          Maybe it has not been studied yet, or lies on another shelf; the command "shelf" lists \
          what is here.\
          """
              .formatted(text));
    }
    if (meant.size() > 1) {
      throw new Trouble.WrongUsage(
          "\"%s\" may mean several songs; name one by its number: %s."
              .formatted(
                  text,
                  meant.stream()
                      .map(song -> song.id() + " (" + song.path() + ")")
                      .collect(Collectors.joining(", "))));
    }
    return meant.get(0);
  }

  /**
   * Title, artist and year in the listener's words; what is empty goes back to the file's tags.
   * What was said before is kept.
   */
  public void say(long id, Song.Words said, String author, Instant saidAt) {
    database.<Object>write(
        handle -> {
          touch(handle, id);
          worded(
                  handle.createUpdate(
                      "UPDATE song SET said_title = :title, said_artist = :artist,"
                          + " said_year = :year WHERE id = :id"),
                  id,
                  said)
              .execute();
          worded(
                  handle.createUpdate(
                      "INSERT INTO song_wording (song_id, author, said_at, title, artist, year)"
                          + " VALUES (:id, :author, :at, :title, :artist, :year)"),
                  id,
                  said)
              .bind("author", author)
              .bind("at", saidAt.truncatedTo(ChronoUnit.MILLIS).toString())
              .execute();
          return null;
        });
  }

  private static Update worded(Update update, long id, Song.Words said) {
    return update
        .bind("title", said.title().orElse(null))
        .bind("artist", said.artist().orElse(null))
        .bind("year", said.year().orElse(null))
        .bind("id", id);
  }

  /** Everything that was said of title, artist and year, oldest first. */
  public List<SongWording> wordings(long id) {
    return database.read(
        handle ->
            handle
                .createQuery("SELECT * FROM song_wording WHERE song_id = :song ORDER BY id")
                .bind("song", id)
                .map(
                    (row, context) ->
                        new SongWording(
                            row.getString("author"),
                            Instant.parse(row.getString("said_at")),
                            new Song.Words(
                                Optional.ofNullable(row.getString("title")),
                                Optional.ofNullable(row.getString("artist")),
                                Optional.of(row.getInt("year")))))
                .list());
  }

  Song put(Handle handle, StudiedFile facts) {
    String path = facts.path().toAbsolutePath().normalize().toString();
    handle
        .createUpdate(
            """
            INSERT INTO song (content_hash, path, duration_seconds, tag_title, tag_artist,
                tag_year, said_title, said_artist, said_year, studied_at)
            VALUES (:hash, :path, :duration, :tagTitle, :tagArtist, :tagYear, :saidTitle,
                :saidArtist, :saidYear, :now)
            ON CONFLICT (content_hash) DO UPDATE SET path = excluded.path,
                duration_seconds = excluded.duration_seconds, tag_title = excluded.tag_title,
                tag_artist = excluded.tag_artist, tag_year = excluded.tag_year,
                said_title = coalesce(excluded.said_title, song.said_title),
                said_artist = coalesce(excluded.said_artist, song.said_artist),
                said_year = coalesce(excluded.said_year, song.said_year),
                studied_at = excluded.studied_at, origin = 'recording', source = ''\
            """)
        .bind("hash", facts.contentHash())
        .bind("path", path)
        .bind("duration", facts.durationSeconds())
        .bind("tagTitle", facts.tagged().title().orElse(""))
        .bind("tagArtist", facts.tagged().artist().orElse(""))
        .bind("tagYear", facts.tagged().year().orElse(0))
        .bind("saidTitle", facts.said().title().orElse(null))
        .bind("saidArtist", facts.said().artist().orElse(null))
        .bind("saidYear", facts.said().year().orElse(null))
        .bind("now", Instant.now().truncatedTo(ChronoUnit.MILLIS).toString())
        .execute();
    Song song = withContent(handle, facts.contentHash()).orElseThrow();
    if (database.isServer()) {
      handle.execute(
          "INSERT INTO song_file (song_id, desk, path) VALUES (?, ?, ?)"
              + " ON CONFLICT (song_id, desk) DO UPDATE SET path = excluded.path",
          song.id(),
          database.desk(),
          path);
      return withContent(handle, facts.contentHash()).orElseThrow();
    }
    return song;
  }

  private Optional<Song> withContent(Handle handle, String contentHash) {
    return handle
        .createQuery("SELECT " + columns + " FROM song WHERE content_hash = :hash")
        .bind("hash", contentHash)
        .map((row, context) -> song(row))
        .findOne();
  }

  static Song song(ResultSet row) throws SQLException {
    return new Song(
        row.getLong("id"),
        row.getString("content_hash"),
        Path.of(row.getString("path")),
        row.getDouble("duration_seconds"),
        Song.Words.ofTags(
            row.getString("tag_title"), row.getString("tag_artist"), row.getInt("tag_year")),
        new Song.Words(
            Optional.ofNullable(row.getString("said_title")),
            Optional.ofNullable(row.getString("said_artist")),
            Optional.of(row.getInt("said_year"))),
        Instant.parse(row.getString("studied_at")),
        Origin.named(row.getString("origin")),
        row.getString("source"));
  }

  private static boolean isNumber(Song song, String text) {
    return text.strip().equals(Long.toString(song.id()));
  }

  private static boolean isCalled(Song song, String text) {
    return song.title().equalsIgnoreCase(text.strip())
        || song.path().getFileName().toString().equals(text)
        || song.path().equals(Path.of(text).toAbsolutePath().normalize());
  }
}
