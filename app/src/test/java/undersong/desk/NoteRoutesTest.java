package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.study.StandInStudy;

class NoteRoutesTest {
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

  @Test
  void remarksStandWhereTheyWereMade() throws Exception {
    HttpResponse<String> made =
        desk.post(
            song + "/remarks", "{\"startSeconds\": 9, \"endSeconds\": 11, \"text\": \" wait \"}");
    assertThat(made.statusCode()).isEqualTo(201);
    desk.post(
        song + "/remarks", "{\"startSeconds\": 3, \"text\": \"here\", \"author\": \"a friend\"}");
    JsonNode remarks = desk.json(song).path("remarks");
    assertThat(remarks.findValuesAsText("text")).containsExactly("here", "wait");
    assertThat(remarks.get(0).path("author").asText()).isEqualTo("a friend");
    assertThat(remarks.get(1).path("endSeconds").asDouble()).isEqualTo(11);
    String one = song + "/remarks/" + remarks.get(0).path("id").asLong();
    desk.send("PUT", one, "{\"startSeconds\": 4, \"text\": \"no, here\"}");
    assertThat(desk.json(song).path("remarks").get(0).path("text").asText()).isEqualTo("no, here");
    assertThat(desk.send("DELETE", one, "").statusCode()).isEqualTo(204);
    assertThat(desk.send("DELETE", one, "").statusCode()).isEqualTo(404);
    assertThat(desk.json(song).path("remarks")).hasSize(1);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{'text':'no place'}",
        "{'startSeconds':3}",
        "{'startSeconds':3,'text':'  '}",
        "{'startSeconds':-1,'text':'x'}",
        "{'startSeconds':300,'text':'x'}",
        "{'startSeconds':3,'endSeconds':2,'text':'x'}"
      })
  void remarksThatMakeNoSenseAreRefused(String json) throws Exception {
    assertThat(desk.post(song + "/remarks", json.replace('\'', '"')).statusCode()).isEqualTo(400);
    assertThat(desk.json(song).path("remarks")).isEmpty();
  }

  /** The made-up reading has Am from 0 to 2 s, A minor to 16 s, A1 in the bass. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{'kind':'ChordOver','span':[0,2],'chord':'Am'}       | true  | []",
        "{'kind':'ChordOver','span':[0,2],'chord':'A'}        | false | [\"third\"]",
        "{'kind':'ChordOver','span':[0,2],'chord':'Am7/G'}    | false | [\"seventh\",\"bass\"]",
        "{'kind':'ChordOver','span':[0,2],'chord':'A5'}       | false | [\"third\"]",
        "{'kind':'ChordOver','span':[0,2],'chord':'C'}        | false | [\"root\",\"third\",\"bass\"]",
        "{'kind':'ChordOver','span':[0,2],'chord':'N.C.'}     | false | [\"root\"]",
        "{'kind':'KeyOver','span':[0,16],'key':'A harmonic minor'} | true | []",
        "{'kind':'KeyOver','span':[0,16],'key':'C major'}     | false | [\"tonic\",\"mode\"]",
        "{'kind':'KeyOver','span':[0,16],'key':'A dorian'}    | false | [\"mode\"]",
        "{'kind':'BassNoteOver','span':[0,2],'pitch':'A2'}    | true  | []",
        "{'kind':'BassNoteOver','span':[0,2],'pitch':'E2'}    | false | [\"note\"]"
      })
  void whatOneHeardIsHeldAgainstTheReading(String heard, boolean agrees, String differsIn)
      throws Exception {
    String json = "{\"heard\": " + heard.replace('\'', '"') + ", \"author\": \"a student\"}";
    assertThat(desk.post(song + "/hearings", json).statusCode()).isEqualTo(201);
    JsonNode hearing = desk.json(song + "/hearings").path("hearings").get(0);
    assertThat(hearing.path("agrees").asBoolean()).isEqualTo(agrees);
    assertThat(hearing.path("differsIn")).hasToString(differsIn);
    assertThat(hearing.path("author").asText()).isEqualTo("a student");
    assertThat(desk.json(song).path("steps")).as("nothing was corrected by it").isEmpty();
  }

  @Test
  void theListenerDecides() throws Exception {
    desk.post(
        song + "/hearings",
        "{\"heard\": {\"kind\": \"ChordOver\", \"span\": [2, 4], \"chord\": \"Dm\"}}");
    String one = song + "/hearings/" + desk.json(song).path("hearings").get(0).path("id").asLong();
    desk.post(one + "/decision", "{\"decision\": \"both\"}");
    assertThat(desk.json(song).path("hearings").get(0).path("decision").asText()).isEqualTo("both");
    assertThat(desk.json(song).path("chords").get(1).path("label").asText()).isEqualTo("F");
    desk.post(one + "/decision", "{\"decision\": \"mine\"}");
    assertThat(desk.json(song).path("chords").get(1).path("label").asText()).isEqualTo("Dm");
    assertThat(desk.json(song).path("hearings").get(0).path("agrees").asBoolean()).isTrue();
    assertThat(desk.post(one + "/decision", "{\"decision\": \"maybe\"}").statusCode())
        .isEqualTo(400);
    assertThat(desk.send("DELETE", one, "").statusCode()).isEqualTo(204);
    assertThat(desk.json(song).path("hearings")).isEmpty();
  }

  @Test
  void onlyWhatCanBeComparedIsKeptAsHeard() throws Exception {
    HttpResponse<String> beat =
        desk.post(song + "/hearings", "{\"heard\": {\"kind\": \"BeatAt\", \"seconds\": 1}}");
    assertThat(beat.statusCode()).isEqualTo(400);
  }
}
