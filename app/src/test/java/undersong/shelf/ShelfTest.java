package undersong.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import undersong.reading.Correction;
import undersong.reading.Provenance;
import undersong.reading.SampleReadings;
import undersong.work.Trouble;

@ParameterizedClass
@EnumSource(Store.class)
class ShelfTest {
  @Parameter Store store;
  private static final Provenance MADE_WITH = new Provenance("f1", "e1", Map.of("beats", 2.5));

  @TempDir Path folder;
  private Shelf shelf;

  @BeforeEach
  void openEmpty() {
    shelf = Shelf.open(store.fresh(folder.resolve("deep")));
  }

  @AfterEach
  void close() {
    shelf.close();
  }

  @Test
  void keepsASongAndItsReading() {
    Song song = keep(facts("hash-1", "/music/lantern.wav"));
    StoredReading stored = shelf.readings().latest(song.id()).orElseThrow();
    assertThat(stored.reading()).isEqualTo(SampleReadings.full());
    assertThat(stored.provenance()).isEqualTo(MADE_WITH);
    assertThat(stored.revision()).isEqualTo(1);
    assertThat(shelf.songs().get(song.id())).isEqualTo(song);
    assertThat(shelf.songs().list("").get(0))
        .isEqualTo(new ShelfEntry(song, 120, "4/4", "A natural minor"));
  }

  @Test
  void findsAMovedFileAgainByItsSoundAndKeepsWhatWasSaid() {
    Song before = keep(facts("hash-1", "/music/lantern.wav"));
    shelf.corrections().append(before.id(), "me", Instant.EPOCH, List.of(new Correction.BeatAt(1)));
    List<Long> inForce = ids(before);
    Song after =
        shelf
            .keep(facts("hash-1", "/else/renamed.wav"), SampleReadings.full(), inForce, MADE_WITH)
            .orElseThrow();
    assertThat(after.id()).isEqualTo(before.id());
    assertThat(after.path()).isEqualTo(Path.of("/else/renamed.wav"));
    assertThat(shelf.corrections().inForce(after.id()).entries()).hasSize(1);
    assertThat(shelf.songs().list("")).hasSize(1);
    assertThat(shelf.readings().revision(after.id())).isEqualTo(2);
  }

  @Test
  void whatTheListenerSaidOfASongOutlivesItsTags() {
    StudiedFile tagged = facts("hash-1", "/music/lantern.wav");
    Song.Words said =
        new Song.Words(Optional.of("Lantern Hill"), Optional.empty(), Optional.of(1987));
    keep(new StudiedFile("hash-1", tagged.path(), 24, tagged.tagged(), said));
    Song again = keep(tagged);
    assertThat(again.title()).isEqualTo("Lantern Hill");
    assertThat(again.artist()).contains("Tagged Artist");
    assertThat(again.year()).contains(1987);
  }

  @Test
  void namesASongByItsFileWhereNothingElseIsKnown() {
    Song song =
        keep(
            new StudiedFile(
                "h", Path.of("/music/low tide.take2.flac"), 24, Song.Words.NONE, Song.Words.NONE));
    assertThat(song.title()).isEqualTo("low tide.take2");
    assertThat(song.artist()).isEmpty();
    assertThat(song.year()).isEmpty();
  }

  @Test
  void findsSongsByWordsInAnyOrder() {
    keep(facts("hash-1", "/music/lantern.wav"));
    assertThat(shelf.songs().list("ARTIST tagged")).hasSize(1);
    assertThat(shelf.songs().list("minor 2020 4/4 lantern.wav")).hasSize(1);
    assertThat(shelf.songs().list("tagged dorian")).isEmpty();
  }

  @Test
  void takesASongByNumberTitleOrFile() {
    Song first = keep(facts("hash-1", "/music/lantern.wav"));
    Song second =
        keep(
            new StudiedFile(
                "hash-2",
                Path.of("/music/other.wav"),
                24,
                Song.Words.ofTags("Other", "", 0),
                Song.Words.NONE));
    assertThat(shelf.songs().named(Long.toString(second.id()))).isEqualTo(second);
    assertThat(shelf.songs().named("other")).isEqualTo(second);
    assertThat(shelf.songs().named("lantern.wav")).isEqualTo(first);
    assertThat(shelf.songs().named("/music/../music/lantern.wav")).isEqualTo(first);
    assertThatThrownBy(() -> shelf.songs().named("nothing"))
        .isInstanceOf(Trouble.NotOnShelf.class)
        .hasMessageContaining("\"nothing\"");
    keep(facts("hash-3", "/music/copy/lantern.wav"));
    assertThatThrownBy(() -> shelf.songs().named("Tagged Title"))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining("lantern.wav");
  }

  @Test
  void refusesAReadingThatLagsBehindWhatWasSaid() {
    Song song = keep(facts("hash-1", "/music/lantern.wav"));
    shelf.corrections().append(song.id(), "me", Instant.EPOCH, List.of(new Correction.BeatAt(1)));
    assertThat(shelf.keep(facts("hash-1", "/new.wav"), SampleReadings.full(), List.of(), MADE_WITH))
        .isEmpty();
    assertThat(shelf.songs().get(song.id()).path()).isEqualTo(Path.of("/music/lantern.wav"));
    assertThat(shelf.readings().store(song.id(), SampleReadings.full(), List.of(), MADE_WITH))
        .isEmpty();
    assertThat(shelf.readings().revision(song.id())).isEqualTo(1);
  }

  @Test
  void aReadingOfAnotherShapeCountsAsNone() throws Exception {
    Song song = keep(facts("hash-1", "/music/lantern.wav"));
    try (var connection = Store.connect(shelf.place());
        var statement = connection.createStatement()) {
      statement.execute(
          "UPDATE reading SET json = '{\"durationSeconds\": 3, \"facets\": {\"beats\": {}}}'");
    }
    assertThat(shelf.readings().latest(song.id())).isEmpty();
    assertThat(shelf.readings().revision(song.id())).isEqualTo(1);
  }

  @Test
  void opensAgainWithEverythingOnIt() {
    Song song = keep(facts("hash-1", "/music/lantern.wav"));
    shelf.close();
    shelf = Shelf.open(shelf.place());
    assertThat(shelf.songs().list("").get(0).song()).isEqualTo(song);
  }

  @Test
  void saysWhyAFileIsNoShelf() throws Exception {
    Path file = folder.resolve("poem.txt");
    Files.writeString(file, "not a shelf, ".repeat(500));
    assertThatThrownBy(() -> Shelf.open(file))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining("poem.txt");
  }

  @Test
  void leavesAShelfOfANewerProgramAlone() throws Exception {
    shelf.close();
    try (var connection = Store.connect(shelf.place());
        var statement = connection.createStatement()) {
      statement.execute(
          "INSERT INTO flyway_schema_history SELECT 99, '99', 'later', type, 'V99__later.sql',"
              + " checksum, installed_by, installed_on, execution_time, success"
              + " FROM flyway_schema_history LIMIT 1");
      if (store == Store.FILE) {
        statement.execute("PRAGMA user_version = 99");
      }
    }
    assertThatThrownBy(() -> Shelf.open(shelf.place()))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining("newer program");
  }

  @Test
  void theLastMigrationSaysTheLayoutThisProgramKnows() throws Exception {
    try (var connection = Store.connect(shelf.place());
        var statement = connection.createStatement()) {
      var last =
          statement.executeQuery("SELECT max(CAST(version AS INTEGER)) FROM flyway_schema_history");
      last.next();
      assertThat(last.getInt(1)).isEqualTo(ShelfDatabase.LAYOUT);
      if (store == Store.FILE) {
        var said = statement.executeQuery("PRAGMA user_version");
        assertThat(said.getInt(1)).isEqualTo(ShelfDatabase.LAYOUT);
      }
    }
  }

  private Song keep(StudiedFile facts) {
    List<Long> inForce =
        shelf.songs().withContent(facts.contentHash()).map(this::ids).orElse(List.of());
    return shelf.keep(facts, SampleReadings.full(), inForce, MADE_WITH).orElseThrow();
  }

  private List<Long> ids(Song song) {
    return shelf.corrections().inForce(song.id()).entries().stream()
        .map(entry -> entry.id())
        .toList();
  }

  private static StudiedFile facts(String hash, String path) {
    return new StudiedFile(
        hash,
        Path.of(path),
        24,
        Song.Words.ofTags("Tagged Title", "Tagged Artist", 2020),
        Song.Words.NONE);
  }
}
