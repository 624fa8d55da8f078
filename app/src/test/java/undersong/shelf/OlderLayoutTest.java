package undersong.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.DriverManager;
import java.util.Optional;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What an older program kept in a file is there after this one brought it to its layout. */
class OlderLayoutTest {
  @Test
  void whatWasKeptBeforeThereWereSeveralSpeakersIsEverybodys(@TempDir Path folder)
      throws Exception {
    Path file = folder.resolve("shelf.db");
    String url = "jdbc:sqlite:" + file;
    Flyway.configure()
        .dataSource(url, null, null)
        .locations("classpath:undersong/shelf/sqlite")
        .target("10")
        .load()
        .migrate();
    try (var connection = DriverManager.getConnection(url);
        var statement = connection.createStatement()) {
      for (String sql :
          new String[] {
            "INSERT INTO song (content_hash, path, duration_seconds, tag_title, tag_artist,"
                + " tag_year, said_title, studied_at) VALUES ('hash', '/a.wav', 24, '', '', 0,"
                + " 'Night Market', '2026-11-25T12:00:00Z')",
            "INSERT INTO setting VALUES ('words', '{\"noteNames\": \"german\"}')",
            "INSERT INTO saved_search VALUES ('turns', 'chords I IV', '2026-11-25T12:00:00Z')",
            "INSERT INTO remark (song_id, author, said_at, start_seconds, words)"
                + " VALUES (1, 'Ada', '2026-11-25T12:00:00Z', 3, 'listen')",
            "INSERT INTO lesson (song_id) VALUES (1)",
            "INSERT INTO lesson_version VALUES (1, 1, 'Ada', '2026-11-25T12:00:00Z', '{}')"
          }) {
        statement.execute(sql);
      }
    }
    try (Shelf shelf = Shelf.open(file)) {
      assertThat(shelf.songs().get(1).title()).isEqualTo("Night Market");
      assertThat(shelf.settings().get("Ada", "words").orElseThrow()).contains("german");
      assertThat(shelf.search().saved())
          .containsExactly(new SavedSearch("turns", "listener", "chords I IV"));
      assertThat(shelf.remarks().of(1).get(0).earlier()).isEmpty();
      assertThat(shelf.lessons().of(1).get(0).beside()).isEmpty();
      assertThat(shelf.songs().wordings(1)).isEmpty();
      assertThat(shelf.songs().lastChange(1)).isEqualTo(Optional.empty()); // it has no reading
    }
  }
}
