package undersong.shelf;

import java.nio.file.Path;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import undersong.work.Trouble;

/** The songs of a shelf. */
public final class Songs {
  static final String COLUMNS =
      "song.id, content_hash, path, duration_seconds, tag_title, tag_artist, tag_year, said_title,"
          + " said_artist, said_year, studied_at, origin, source";

  /** The index spares reading the readings themselves. */
  private static final String LISTED =
      "SELECT "
          + COLUMNS
          + ", tempo_bpm, meter, main_key"
          + " FROM song JOIN reading INDEXED BY reading_listed ON song_id = song.id";

  private final ShelfDatabase database;

  Songs(ShelfDatabase database) {
    this.database = database;
  }

  /** The song of this number; throws {@link Trouble.NotOnShelf}. */
  public Song get(long id) {
    return database
        .read(
            handle ->
                handle
                    .createQuery("SELECT " + COLUMNS + " FROM song WHERE id = :id")
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
    return database.read(
        handle ->
            handle
                .createQuery(LISTED + " ORDER BY song.id")
                .map((row, context) -> entry(row))
                .filter(entry -> words.isEmpty() || hasAll(entry, words))
                .list());
  }

  /** One song as a list shows it; throws {@link Trouble.NotOnShelf} where it has no reading. */
  public ShelfEntry entry(long id) {
    return database
        .read(
            handle ->
                handle
                    .createQuery(LISTED + " WHERE song.id = :id")
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

  /** Title, artist and year in the listener's words; what is empty goes back to the file's tags. */
  public void say(long id, Song.Words said) {
    database.write(
        handle ->
            handle
                .createUpdate(
                    "UPDATE song SET said_title = :title, said_artist = :artist, said_year = :year"
                        + " WHERE id = :id")
                .bind("title", said.title().orElse(null))
                .bind("artist", said.artist().orElse(null))
                .bind("year", said.year().orElse(null))
                .bind("id", id)
                .execute());
  }

  static Song put(Handle handle, StudiedFile facts) {
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
                said_title = coalesce(excluded.said_title, said_title),
                said_artist = coalesce(excluded.said_artist, said_artist),
                said_year = coalesce(excluded.said_year, said_year),
                studied_at = excluded.studied_at, origin = 'recording', source = ''\
            """)
        .bind("hash", facts.contentHash())
        .bind("path", facts.path().toAbsolutePath().normalize().toString())
        .bind("duration", facts.durationSeconds())
        .bind("tagTitle", facts.tagged().title().orElse(""))
        .bind("tagArtist", facts.tagged().artist().orElse(""))
        .bind("tagYear", facts.tagged().year().orElse(0))
        .bind("saidTitle", facts.said().title().orElse(null))
        .bind("saidArtist", facts.said().artist().orElse(null))
        .bind("saidYear", facts.said().year().orElse(null))
        .bind("now", Instant.now().truncatedTo(ChronoUnit.MILLIS).toString())
        .execute();
    return withContent(handle, facts.contentHash()).orElseThrow();
  }

  private static Optional<Song> withContent(Handle handle, String contentHash) {
    return handle
        .createQuery("SELECT " + COLUMNS + " FROM song WHERE content_hash = :hash")
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

  private static boolean hasAll(ShelfEntry entry, List<String> words) {
    String text = searchable(entry);
    return words.stream().allMatch(text::contains);
  }

  private static String searchable(ShelfEntry entry) {
    Song song = entry.song();
    return String.join(
            "\n",
            song.title(),
            song.artist().orElse(""),
            song.year().map(String::valueOf).orElse(""),
            entry.key(),
            entry.meter(),
            song.origin().word(),
            String.valueOf(song.path().getFileName()))
        .toLowerCase(Locale.ROOT);
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
