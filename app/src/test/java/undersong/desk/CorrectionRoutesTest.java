package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.study.StandInStudy;

class CorrectionRoutesTest {
  private static final String SECOND_BAR_DM7 =
      "{\"corrections\": [{\"kind\": \"ChordOver\", \"span\": [2, 4], \"chord\": \"Dm7\"}]}";

  @TempDir Path folder;
  private TestDesk desk;
  private String song;

  @BeforeEach
  void open() throws Exception {
    desk = new TestDesk(folder, StandInStudy.in(folder));
    song = "/api/songs/" + desk.study.study(TestDesk.song(folder, "low tide.wav")).song().id();
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private String secondChord() throws Exception {
    return desk.json(song).path("chords").get(1).path("label").asText();
  }

  @Test
  void theAnswerSaysWhatFollows() throws Exception {
    JsonNode answer = TestDesk.parse(desk.post(song + "/corrections", SECOND_BAR_DM7));
    assertThat(answer.path("revision").asInt()).isEqualTo(2);
    JsonNode change = answer.path("changes").get(0);
    assertThat(change.path("facet").asText()).isEqualTo("chords");
    assertThat(change.path("before").get(0).path("words").asText()).isEqualTo("F");
    assertThat(change.path("after").get(0).path("words").asText()).isEqualTo("Dm7");
    assertThat(answer.path("page").path("chords").get(1).path("label").asText()).isEqualTo("Dm7");
    assertThat(answer.path("page").path("steps").get(0).path("author").asText())
        .isEqualTo("listener");
    assertThat(secondChord()).isEqualTo("Dm7");
  }

  /** Whatever is asked for and held: together they are what the desk holds. */
  @Test
  void theAnswerIsCompletedByWhatIsHeld() throws Exception {
    JsonNode held = desk.json(song);
    for (String path : new String[] {"/corrections", "/undo", "/redo"}) {
      String body = path.equals("/corrections") ? SECOND_BAR_DM7 : "";
      JsonNode page =
          TestDesk.parse(desk.post(song + path, body, Wanted.HELD_HEADER, TestDesk.held(held)))
              .path("page");
      assertThat(page.has("chords")).isTrue();
      assertThat(page.has("bars")).isFalse();
      assertThat(page.has("space")).isFalse();
      held = TestDesk.joined(held, page);
      assertThat(held).isEqualTo(desk.json(song));
    }
  }

  @Test
  void aWordIsNotKeptWhereTheAnswerCouldNotBeGiven() throws Exception {
    assertThat(desk.post(song + "/corrections?parts=colour", SECOND_BAR_DM7).statusCode())
        .isEqualTo(400);
    assertThat(desk.json(song).path("steps")).isEmpty();
  }

  @Test
  void stepsAreTakenBackAndBroughtBack() throws Exception {
    desk.post(song + "/corrections", SECOND_BAR_DM7);
    desk.post(song + "/corrections", SECOND_BAR_DM7.replace("Dm7", "Bdim"));
    JsonNode undone = TestDesk.parse(desk.post(song + "/undo", ""));
    assertThat(undone.path("page").path("canRedo").asBoolean()).isTrue();
    assertThat(secondChord()).isEqualTo("Dm7");
    desk.post(song + "/redo", "");
    assertThat(secondChord()).isEqualTo("Bdim");
    long first = desk.json(song).path("steps").get(0).path("id").asLong();
    desk.post(song + "/steps/" + first + "/take-back", "");
    assertThat(desk.json(song).path("steps").get(0).path("inForce").asBoolean()).isFalse();
    desk.post(song + "/steps/" + first + "/bring-back", "");
    assertThat(desk.json(song).path("steps").get(0).path("inForce").asBoolean()).isTrue();
    assertThat(desk.post(song + "/redo", "").statusCode()).isEqualTo(400);
  }

  @Test
  void aWordSaidOfAnOlderReadingIsNotTaken() throws Exception {
    assertThat(desk.post(song + "/corrections", SECOND_BAR_DM7, "If-Match", "\"1\"").statusCode())
        .isEqualTo(200);
    HttpResponse<String> late =
        desk.post(song + "/corrections", SECOND_BAR_DM7.replace("Dm7", "Em"), "If-Match", "\"1\"");
    assertThat(late.statusCode()).isEqualTo(412);
    assertThat(TestDesk.parse(late).path("revision").asInt()).isEqualTo(2);
    assertThat(desk.post(song + "/undo", "", "If-Match", "\"1\"").statusCode()).isEqualTo(412);
    assertThat(secondChord()).isEqualTo("Dm7");
    String tag = desk.get(song).headers().firstValue("ETag").orElseThrow();
    assertThat(desk.post(song + "/undo", "", "If-Match", tag).statusCode()).isEqualTo(200);
    assertThat(desk.post(song + "/undo", "", "If-Match", "x").statusCode()).isEqualTo(400);
  }

  @Test
  void aBatchIsOneStepOrNothing() throws Exception {
    String two =
        "{\"author\": \"a colleague\", \"corrections\": [{\"kind\": \"BeatAt\", \"seconds\": 1},"
            + " {\"kind\": \"BeatAt\", \"seconds\": %s}]}";
    assertThat(desk.post(song + "/corrections", two.formatted("99")).statusCode()).isEqualTo(400);
    assertThat(desk.json(song).path("steps")).isEmpty();
    desk.post(song + "/corrections", two.formatted("2"));
    JsonNode steps = desk.json(song).path("steps");
    assertThat(steps).hasSize(1);
    assertThat(steps.get(0).path("corrections")).hasSize(2);
    assertThat(steps.get(0).path("author").asText()).isEqualTo("a colleague");
    assertThat(steps.get(0).path("corrections").get(1).path("words").asText())
        .isEqualTo("a beat at 0:02.0");
    assertThat(desk.post(song + "/corrections", "{\"corrections\": []}").statusCode())
        .isEqualTo(400);
  }

  /** The last section is the first one a whole tone up. */
  @Test
  void whatIsSaidOfOneCopyIsOfferedForTheOther() throws Exception {
    String said =
        "{\"correction\": {\"kind\": \"ChordOver\", \"span\": [2, 4], \"chord\": \"Dm7\"}}";
    JsonNode offers = TestDesk.parse(desk.post(song + "/offers", said)).path("offers");
    assertThat(offers).hasSize(1);
    assertThat(offers.get(0).path("correction").path("chord").asText()).isEqualTo("E:min7");
    assertThat(offers.get(0).path("section").path("firstBar").asInt()).isEqualTo(9);
    assertThat(desk.json(song).path("steps")).isEmpty();
    desk.post(
        song + "/corrections", "{\"corrections\": [" + offers.get(0).path("correction") + "]}");
    assertThat(desk.json(song).path("chords").get(9).path("label").asText()).isEqualTo("Em7");
  }

  @Test
  void whatFitsNothingIsListed() throws Exception {
    String nowhere = SECOND_BAR_DM7.replace("[2, 4]", "[2.9, 3.0]");
    JsonNode answer = TestDesk.parse(desk.post(song + "/corrections", nowhere));
    assertThat(answer.path("unplaced").get(0).path("words").asText()).contains("Dm7");
    assertThat(desk.json(song).path("unplaced")).hasSize(1);
  }
}
