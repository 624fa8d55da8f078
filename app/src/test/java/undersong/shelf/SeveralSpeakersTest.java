package undersong.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
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
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.Sentence;
import undersong.technique.Technique;
import undersong.time.Span;

/** Two programs that share a shelf: of two edits of one thing both are kept. */
@ParameterizedClass
@EnumSource(Store.class)
class SeveralSpeakersTest {
  private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");
  private static final int TIMES = 20;

  @Parameter Store store;
  @TempDir Path folder;
  private Shelf ada;
  private Shelf ben;
  private long song;

  @BeforeEach
  void open() {
    ShelfPlace place = store.fresh(folder);
    ada = Shelf.open(place);
    ben = Shelf.open(Store.elsewhere(place, folder.resolve("ben")));
    song = keep(ada, "/ada/lantern.wav");
  }

  @AfterEach
  void close() {
    ada.close();
    ben.close();
  }

  private static long keep(Shelf shelf, String path) {
    return shelf
        .keep(
            new StudiedFile("hash", Path.of(path), 24, Song.Words.NONE, Song.Words.NONE),
            SampleReadings.full(),
            List.of(),
            new Provenance("f", "e", Map.of()))
        .orElseThrow()
        .id();
  }

  /** Both at once, as often as told; each time with a word of its own. */
  private void both(Saying saying) throws Exception {
    ExecutorService threads = Executors.newFixedThreadPool(2);
    List<Callable<Object>> sayings = new ArrayList<>();
    for (int i = 0; i < TIMES; i++) {
      String word = " " + i;
      sayings.add(() -> saying.by(ada, "Ada", "Ada" + word));
      sayings.add(() -> saying.by(ben, "Ben", "Ben" + word));
    }
    for (Future<Object> said : threads.invokeAll(sayings)) {
      said.get();
    }
    threads.shutdown();
  }

  private interface Saying {
    Object by(Shelf shelf, String author, String word);
  }

  private static List<String> everyWord() {
    return Stream.of("Ada", "Ben")
        .flatMap(who -> Stream.iterate(0, i -> i < TIMES, i -> i + 1).map(i -> who + " " + i))
        .toList();
  }

  @Test
  void everyWordingOfARemarkIsKeptWithItsAuthor() throws Exception {
    long remark = ada.remarks().add(song, "Ada", NOON, 3, OptionalDouble.empty(), "the first").id();
    both(
        (shelf, author, word) ->
            shelf.remarks().change(song, remark, author, NOON, 3, OptionalDouble.empty(), word));
    Remark now = ben.remarks().of(song).get(0);
    List<String> said = new ArrayList<>(List.of(now.words()));
    now.earlier().forEach(one -> said.add(one.words()));
    assertThat(said).contains("the first").containsAll(everyWord()).hasSize(2 * TIMES + 1);
    assertThat(now.words()).startsWith(now.author());
    assertThat(now.earlier().get(0).words()).isEqualTo("the first");
    assertThat(now.earlier().subList(1, 2 * TIMES))
        .allSatisfy(one -> assertThat(one.words()).startsWith(one.author()));
  }

  @Test
  void everyDecisionAboutWhatWasHeardIsKeptWithWhoMadeIt() throws Exception {
    Correction heard =
        new Correction.KeyOver(new Span(0, 4), SampleReadings.keys().regions().get(0).key());
    long hearing = ada.hearings().add(song, "Ada", NOON, heard).id();
    both(
        (shelf, author, word) ->
            shelf
                .hearings()
                .decide(
                    song,
                    hearing,
                    author,
                    NOON,
                    author.equals("Ada") ? Hearing.Decision.MINE : Hearing.Decision.PROGRAM));
    Hearing now = ben.hearings().of(song).get(0);
    assertThat(now.decisions()).hasSize(2 * TIMES);
    assertThat(now.decisions())
        .filteredOn(one -> one.author().equals("Ada"))
        .hasSize(TIMES)
        .allSatisfy(one -> assertThat(one.decision()).isEqualTo(Hearing.Decision.MINE));
    assertThat(now.decision()).isEqualTo(now.decisions().get(2 * TIMES - 1).decision());
    assertThat(ada.hearings().decide(song, 99, "Ada", NOON, Hearing.Decision.BOTH)).isFalse();
  }

  @Test
  void ofTwoSavingsOfOneLessonTheLaterBecomesALessonOfItsOwn() throws Exception {
    StoredLesson first = ada.lessons().add(song, "Ada", NOON, "{\"title\": \"first\"}");
    both(
        (shelf, author, word) ->
            shelf
                .lessons()
                .save(first.id(), 1, author, NOON, "{\"title\": \"%s\"}".formatted(word)));
    List<StoredLesson> all = ben.lessons().of(song);
    assertThat(all).hasSize(2 * TIMES);
    assertThat(all.get(0).version()).isEqualTo(2);
    assertThat(all.subList(1, all.size()))
        .allSatisfy(one -> assertThat(one.beside()).hasValue(first.id()));
    assertThat(all)
        .extracting(StoredLesson::json)
        .containsExactlyInAnyOrderElementsOf(
            everyWord().stream().map(word -> "{\"title\": \"%s\"}".formatted(word)).toList());
  }

  @Test
  void everyTitleSaidIsKept() throws Exception {
    both(
        (shelf, author, word) -> {
          Song.Words words = new Song.Words(Optional.of(word), Optional.empty(), Optional.empty());
          shelf.songs().say(song, words, author, NOON);
          return word;
        });
    List<SongWording> said = ben.songs().wordings(song);
    assertThat(said)
        .extracting(one -> one.words().title().orElseThrow())
        .containsExactlyInAnyOrderElementsOf(everyWord());
    assertThat(said).last().extracting(SongWording::words).isEqualTo(ada.songs().get(song).said());
  }

  @Test
  void settingsAndSavedSearchesAreEachSpeakersOwn() throws Exception {
    both(
        (shelf, author, word) -> {
          shelf.settings().put(author, "words", "\"%s\"".formatted(word));
          shelf.search().save("turns", author, "chords I IV " + author, NOON);
          return word;
        });
    assertThat(ada.settings().get("Ada", "words").orElseThrow()).startsWith("\"Ada");
    assertThat(ada.settings().get("Ben", "words").orElseThrow()).startsWith("\"Ben");
    assertThat(ada.settings().get("Cleo", "words")).isEmpty();
    ada.settings().put("", "words", "\"everybody\"");
    assertThat(ben.settings().get("Cleo", "words")).contains("\"everybody\"");
    assertThat(ada.search().saved())
        .containsExactly(
            new SavedSearch("turns", "Ada", "chords I IV Ada"),
            new SavedSearch("turns", "Ben", "chords I IV Ben"));
    assertThat(ben.search().forget("turns", "Ben")).isTrue();
    assertThat(ada.search().saved()).extracting(SavedSearch::author).containsExactly("Ada");
  }

  @Test
  void whatOneWritesTheOtherSeesAtTheNextLook() {
    ChangedSongs before = ben.songs().changedSince(0);
    assertThat(before.songs()).containsOnlyKeys(song);
    assertThat(ben.songs().changedSince(before.changes()).songs()).isEmpty();
    ada.remarks().add(song, "Ada", NOON, 3, OptionalDouble.empty(), "listen");
    ChangedSongs after = ben.songs().changedSince(before.changes());
    assertThat(after.songs()).containsOnlyKeys(song);
    assertThat(after.songs().get(song)).isEqualTo(ada.songs().lastChange(song).orElseThrow());
    ada.songs()
        .say(
            song,
            new Song.Words(Optional.of("Night Market"), Optional.empty(), Optional.empty()),
            "Ada",
            NOON);
    assertThat(ben.songs().list("market")).hasSize(1);
    assertThat(ben.search().all()).containsOnlyKeys(song);
    assertThat(ben.search().all().get(song).techniques().has(Technique.RIFF)).isFalse();
    Sentence words = Sentence.of("kind.theory");
    Span span = new Span(4, 8);
    ada.findings()
        .keep(
            song,
            1,
            "v1",
            List.of(
                new Finding(
                    Technique.RIFF,
                    span,
                    Optional.empty(),
                    0.9,
                    "here",
                    words,
                    List.of(new Evidence.Heard(span, words)))));
    assertThat(ben.search().all().get(song).techniques().of(Technique.RIFF)).containsExactly(span);
    assertThat(ben.search().missing()).isEmpty();
  }

  @Test
  void onAServerEachMachineFindsTheRecordingWhereItStudiedIt() {
    assertThat(keep(ben, "/ben/the same.wav")).isEqualTo(song);
    Path adas = store == Store.SERVER ? Path.of("/ada/lantern.wav") : Path.of("/ben/the same.wav");
    assertThat(ada.songs().get(song).path()).isEqualTo(adas);
    assertThat(ben.songs().get(song).path()).isEqualTo(Path.of("/ben/the same.wav"));
  }

  @Test
  void onAServerEachMachineBringsInItsOwn() {
    Arrival arrival = ada.arrivals().add("lantern.wav", Path.of("/ada/in/lantern.wav"), NOON);
    assertThat(ada.arrivals().list()).containsExactly(arrival);
    assertThat(ben.arrivals().list()).hasSize(store == Store.SERVER ? 0 : 1);
    assertThat(ben.arrivals().find(arrival.id()).isPresent()).isEqualTo(store == Store.FILE);
  }

  /** Whoever adds a table must add it to what is copied, and to both kinds of store alike. */
  @Test
  void everyTableIsCopied() throws Exception {
    String names =
        store == Store.FILE
            ? "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
            : "SELECT table_name FROM information_schema.tables WHERE table_schema = 'public'";
    TreeSet<String> tables = new TreeSet<>();
    try (var connection = Store.connect(ada.place());
        var statement = connection.createStatement();
        var rows = statement.executeQuery(names)) {
      while (rows.next()) {
        tables.add(rows.getString(1));
      }
    }
    tables.removeAll(List.of("flyway_schema_history", "shelf_state"));
    assertThat(tables).containsExactlyElementsOf(new TreeSet<>(ShelfRows.TABLES));
  }
}
