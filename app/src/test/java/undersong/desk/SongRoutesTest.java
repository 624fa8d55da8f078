package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.study.StandInStudy;

class SongRoutesTest {
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
  void listsWhatIsOnTheShelf() throws Exception {
    assertThat(desk.json("/api/songs").path("songs").findValuesAsText("title"))
        .containsExactly("low tide");
    assertThat(desk.json("/api/songs?query=tide%20minor").path("songs")).hasSize(1);
    assertThat(desk.json("/api/songs?query=ebb").path("songs")).isEmpty();
    assertThat(desk.get("/api/songs/99").statusCode()).isEqualTo(404);
    assertThat(desk.get("/api/songs/none").statusCode()).isEqualTo(404);
  }

  /** The made-up reading: 120 bpm, 4/4, A minor, Am F C G a bar each, the G half a beat early. */
  @Test
  void thePageSaysWhatTheReadingSays() throws Exception {
    JsonNode page = desk.json(song);
    assertThat(page.path("facts").path("tempoBpm").asDouble()).isEqualTo(120);
    assertThat(page.path("facts").path("keys").asText())
        .isEqualTo("A natural minor, then B natural minor");
    assertThat(page.path("beats")).hasSize(48);
    assertThat(page.path("bars")).hasSize(12);
    assertThat(page.path("sections").findValuesAsText("letter")).containsExactly("A", "B", "A");
    assertThat(page.path("sections").get(1).path("name").asText()).isEqualTo("Chorus");
    JsonNode early = page.path("chords").get(3);
    assertThat(early.path("label").asText()).isEqualTo("G");
    assertThat(early.path("harte").asText()).isEqualTo("G:maj");
    assertThat(early.path("numeral").asText()).isEqualTo("bVII");
    assertThat(early.path("startSeconds").asDouble()).isEqualTo(5.75);
    assertThat(early.path("startBeat").asDouble()).isEqualTo(11.5);
    assertThat(early.path("arrivalBeats").asDouble()).isEqualTo(-0.5);
    assertThat(page.path("chords").get(5).path("third").path("voices").asText())
        .isEqualTo("sounding");
    assertThat(page.path("chords").get(6).path("open").asBoolean()).isTrue();
    assertThat(page.path("chords").get(7).path("besides").path("harte").asText()).isEqualTo("N");
    JsonNode low = page.path("bass").get(0);
    assertThat(low.path("pitch").asText()).isEqualTo("A1");
    assertThat(low.path("syllable").asText()).isEqualTo("la");
    assertThat(page.path("melody").get(0).path("cents").asInt()).isEqualTo(25);
    assertThat(page.path("canUndo").asBoolean()).isFalse();
    assertThat(desk.json(song + "/curve").path("stretches").get(0).path("midiPitches")).hasSize(2);
  }

  /**
   * What one reader's settings change. Written a major second higher for an instrument in Bb; in
   * German B natural is H: common practice, no source.
   */
  @Test
  void settingsChooseTheWords() throws Exception {
    JsonNode page =
        desk.json(
            song
                + "?minorSyllables=do&minorNumerals=natural-minor&instrument=b-flat&noteNames=german");
    assertThat(page.path("keys").get(0).path("label").asText()).isEqualTo("H natural minor");
    assertThat(page.path("keys").get(0).path("key").asText())
        .as("what a correction reads back stays as it sounds")
        .isEqualTo("A natural minor");
    assertThat(page.path("chords").get(0).path("label").asText()).isEqualTo("Hm");
    assertThat(page.path("chords").get(0).path("harte").asText()).isEqualTo("A:min");
    assertThat(page.path("chords").get(3).path("numeral").asText()).isEqualTo("VII");
    assertThat(page.path("bass").get(0).path("pitch").asText()).isEqualTo("H1");
    assertThat(page.path("bass").get(0).path("syllable").asText()).isEqualTo("do");
    assertThat(page.path("bass").get(0).path("midi").asDouble()).isEqualTo(33);
    assertThat(desk.get(song + "?noteNames=french").statusCode()).isEqualTo(400);
  }

  @Test
  void settingsAreRemembered() throws Exception {
    HttpResponse<String> changed =
        desk.send("PATCH", "/api/settings", "{\"noteNames\":\"fixed-do\",\"page\":{\"big\":true}}");
    assertThat(changed.statusCode()).isEqualTo(200);
    assertThat(desk.json(song).path("chords").get(0).path("label").asText()).isEqualTo("Lam");
    desk.send("PATCH", "/api/settings", "{\"inversions\":\"slash\"}");
    JsonNode all = desk.json("/api/settings");
    assertThat(all.path("noteNames").asText()).isEqualTo("fixed-do");
    assertThat(all.path("inversions").asText()).isEqualTo("slash");
    assertThat(all.path("page").path("big").asBoolean()).isTrue();
    for (String wrong :
        new String[] {
          "{\"colour\":\"red\"}",
          "{\"noteNames\":1}",
          "{\"noteNames\":\"x\"}",
          "{\"page\":{\"long\":\"" + "x".repeat(20_000) + "\"}}"
        }) {
      assertThat(desk.send("PATCH", "/api/settings", wrong).statusCode()).isEqualTo(400);
    }
    assertThat(desk.json("/api/settings")).isEqualTo(all);
  }

  @Test
  void thePageIsSentOnlyWhenItChanged() throws Exception {
    String tag = desk.get(song).headers().firstValue("ETag").orElseThrow();
    assertThat(tag).startsWith("\"1-");
    assertThat(desk.get(song, "If-None-Match", tag).statusCode()).isEqualTo(304);
    desk.post(song + "/remarks", "{\"startSeconds\": 3, \"text\": \"here\"}");
    assertThat(desk.get(song, "If-None-Match", tag).statusCode()).isEqualTo(200);
  }

  @Test
  void aPageIsSentInParts() throws Exception {
    JsonNode whole = desk.json(song);
    for (String name : PageParts.NAMES) {
      assertThat(whole.path(name).isMissingNode()).as(name).isFalse();
      assertThat(whole.path("tags").path(name).asText()).as(name).isNotEmpty();
    }
    JsonNode some = desk.json(song + "?parts=chords,steps");
    assertThat(some.path("chords")).isEqualTo(whole.path("chords"));
    assertThat(some.path("revision")).isEqualTo(whole.path("revision"));
    assertThat(some.properties())
        .extracting(Map.Entry::getKey)
        .containsExactlyInAnyOrder("revision", "chords", "steps", "tags");
    assertThat(desk.get(song + "?parts=colour").statusCode()).isEqualTo(400);
    assertThat(desk.get(song, Wanted.HELD_HEADER, "chords").statusCode()).isEqualTo(400);
  }

  @Test
  void whatIsHeldIsNotSentAgain() throws Exception {
    JsonNode before = desk.json(song);
    String held = TestDesk.held(before);
    desk.post(song + "/remarks", "{\"startSeconds\": 3, \"text\": \"here\"}");
    JsonNode after = desk.json(song, Wanted.HELD_HEADER, held);
    assertThat(after.properties())
        .extracting(Map.Entry::getKey)
        .containsExactlyInAnyOrder("revision", "remarks", "tags");
    assertThat(TestDesk.joined(before, after)).isEqualTo(desk.json(song));
    JsonNode german = desk.json(song + "?noteNames=german", Wanted.HELD_HEADER, held);
    assertThat(german.has("settings")).isTrue();
  }

  @Test
  void titleArtistAndYearAreTheListenersToSay() throws Exception {
    desk.send(
        "PATCH",
        song,
        "{\"title\": \"Ebb\", \"artist\": \"The Quillhaven Night Ferry\", \"year\": 2026}");
    JsonNode said = desk.json(song).path("song");
    assertThat(said.path("title").asText()).isEqualTo("Ebb");
    assertThat(said.path("year").asInt()).isEqualTo(2026);
    desk.send("PATCH", song, "{\"title\": null}");
    assertThat(desk.json(song).path("song").path("title").asText()).isEqualTo("low tide");
    assertThat(desk.json(song).path("song").path("artist").asText()).startsWith("The Quill");
    assertThat(desk.send("PATCH", song, "{\"year\": 12}").statusCode()).isEqualTo(400);
    assertThat(desk.send("PATCH", song, "{\"title\": 12}").statusCode()).isEqualTo(400);
  }

  @Test
  void aTypedChordIsReadBeforeItIsSaid() throws Exception {
    JsonNode read = desk.json("/api/chord?text=Gm7%2FBb");
    assertThat(read.path("harte").asText()).isEqualTo("G:min7/b3");
    assertThat(desk.get("/api/chord?text=H7").body()).contains("H7");
    assertThat(desk.get("/api/chord").statusCode()).isEqualTo(400);
  }

  /** Whoever reads the description finds every path the server answers, and no other. */
  @Test
  void theDescriptionNamesEveryPath() throws Exception {
    String yaml = desk.get("/api/openapi.yaml").body();
    Set<String> described = new HashSet<>();
    yaml.lines()
        .filter(line -> line.startsWith("  /api/"))
        .forEach(line -> described.add(line.strip().replace(":", "")));
    assertThat(described).isEqualTo(desk.server.paths());
  }
}
