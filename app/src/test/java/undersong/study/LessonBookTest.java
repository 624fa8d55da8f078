package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.lesson.Lesson;
import undersong.lesson.LessonJson;
import undersong.notation.NotationSettings;
import undersong.render.DemoRenderer;
import undersong.render.DemoSongs;
import undersong.render.WavFile;
import undersong.shelf.StoredLesson;
import undersong.work.Trouble;

/** Lessons on a demo song, from the draft to what is written out. */
class LessonBookTest {
  private static final Pattern DATA =
      Pattern.compile(
          "<script type=\"application/json\" id=\"lesson\">(.*?)</script>", Pattern.DOTALL);

  private static final Pattern FETCHED =
      Pattern.compile("(src|href)=\"(?!#)|@import|url\\((?!data:|\\$)[\"']?http");

  private static Study study;
  private static long songId;

  @BeforeAll
  static void studyADemoSong(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("song.wav");
    WavFile.write(DemoRenderer.render(DemoSongs.named("count-the-ferries")), file);
    study = Study.on(folder.resolve("shelf.db"));
    songId = study.study(file).song().id();
  }

  @AfterAll
  static void close() {
    study.close();
  }

  @Test
  void theDraftHoldsWhatRanksHighestAndSoundsNothingOfTheRecording() throws IOException {
    Lesson lesson = draft();
    assertThat(lesson.items()).hasSizeBetween(5, 10);
    String page = study.lessons().page(lesson);

    assertThat(FETCHED.matcher(page).find()).as("whether it asks for anything outside").isFalse();
    assertThat(page.contains("The page carries nothing of the recording.")).isTrue();
    assertThat(page.length()).as("a lesson of ten findings, in bytes").isLessThan(2_000_000);
    JsonNode data = data(page);
    assertThat(data.path("items")).hasSameSizeAs(lesson.items());
    assertThat(data.findValues("excerpt")).isEmpty();
    assertThat(data.path("items").get(0).path("example").path("parts").size()).isPositive();
    assertThat(Base64.getDecoder().decode(data.path("levels").asText()).length)
        .as("ten levels a second")
        .isBetween(1100, 1200);
  }

  @Test
  void theExercisesBeginAtTheLevelOfTheClass() throws IOException {
    Lesson lesson = draft().withItems(draft().items().subList(0, 1));
    assertThat(data(study.lessons().page(lesson)).path("level").asInt()).isEqualTo(1);
    Lesson higher = LessonJson.read(LessonJson.text(lesson.withLevel(3)), songId);
    assertThat(data(study.lessons().page(higher)).path("level").asInt()).isEqualTo(3);
    assertThatThrownBy(() -> lesson.withLevel(4)).hasMessageContaining("within 1 to 3, not 4");
  }

  @Test
  void anExcerptIsCarriedOnlyWhereItIsAskedFor() throws IOException {
    Lesson lesson = draft();
    Lesson one =
        lesson.withItems(List.of(lesson.items().get(0).withExcerpt(true), lesson.items().get(1)));
    String page = study.lessons().page(one);
    JsonNode items = data(page).path("items");
    assertThat(items.get(0).path("excerpt").asText()).startsWith("data:audio/mpeg;base64,");
    assertThat(items.get(1).has("excerpt")).isFalse();
    assertThat(page.contains("Excerpts of the recording: 1 (")).isTrue();
  }

  @Test
  void everythingIsWrittenOut() {
    Map<String, byte[]> files = study.lessons().files(draft());
    assertThat(files.keySet())
        .containsExactly(
            "lesson.html",
            "running-order.txt",
            "techniques.txt",
            "chapters.txt",
            "chapters.vtt",
            "song.musicxml",
            "song.mid");
    assertThat(new String(files.get("chapters.vtt"), StandardCharsets.UTF_8))
        .startsWith("WEBVTT\n");
    assertThat(files.values()).allSatisfy(bytes -> assertThat(bytes).isNotEmpty());
  }

  @Test
  void savesEveryVersionAndNeverOverAnother() {
    LessonBook book = study.lessons();
    StoredLesson first = book.add(draft(), "Ada");
    Lesson reworded = LessonJson.read(first.json(), songId).withTitle("Another title");
    StoredLesson second = book.save(first.id(), first.version(), reworded, "Ben");
    assertThat(second.version()).isEqualTo(2);
    assertThat(LessonJson.read(book.get(first.id()).json(), songId)).isEqualTo(reworded);

    StoredLesson late = book.save(first.id(), 1, draft(), "Ada");
    assertThat(late.id()).isNotEqualTo(first.id());
    assertThat(late.beside()).hasValue(first.id());
    assertThat(late.author()).isEqualTo("Ada");
    assertThat(LessonJson.read(book.get(late.id()).json(), songId)).isEqualTo(draft());
    assertThat(LessonJson.read(book.get(first.id()).json(), songId)).isEqualTo(reworded);
    book.takeAway(late.id());

    assertThat(book.of(songId)).extracting(StoredLesson::id).contains(first.id());
    book.takeAway(first.id());
    assertThatThrownBy(() -> book.get(first.id())).isInstanceOf(Trouble.NotOnShelf.class);
    assertThatThrownBy(() -> book.takeAway(first.id())).isInstanceOf(Trouble.NotOnShelf.class);
  }

  private static Lesson draft() {
    return study.lessons().draft(songId, 10, NotationSettings.DEFAULTS);
  }

  private static JsonNode data(String page) throws IOException {
    Matcher matcher = DATA.matcher(page);
    assertThat(matcher.find()).isTrue();
    return new ObjectMapper().readTree(matcher.group(1));
  }
}
