package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.shelf.Song;
import undersong.study.SongsWithoutSound.Remembered;
import undersong.study.StandInStudy;
import undersong.technique.Technique;

class TrendRoutesTest {
  @TempDir Path folder;

  /** The made-up reading plays Am F C G in A minor: i bVI bIII bVII against the major scale. */
  @Test
  void countsWhatIsOnTheShelf() throws Exception {
    try (TestDesk desk = new TestDesk(folder, StandInStudy.in(folder))) {
      long song = desk.study.study(TestDesk.song(folder, "low tide.wav")).song().id();
      desk.study.study(TestDesk.song(folder, "high tide.wav", 330));
      JsonNode trend = desk.json("/api/trends?progression=i%20bVI%20bIII&by=origin");
      assertThat(trend.path("words").asText()).isEqualTo("i bVI bIII");
      assertThat(trend.path("all").path("songs").asInt()).isEqualTo(2);
      assertThat(trend.path("groups").get(0).path("name").asText()).isEqualTo("recording");
      assertThat(trend.path("groups").get(0).path("tellable").asBoolean()).isFalse();
      assertThat(trend.path("said").asText()).startsWith("Nothing can be said: there are 2 songs");
      assertThat(desk.json("/api/trends?progression=i%20V").path("all").path("songs").asInt())
          .isZero();
      assertThat(
              desk.json("/api/trends?technique=key-lift&within=low").path("all").path("of").asInt())
          .isEqualTo(1);
      assertThat(
              desk.json("/api/trends?technique=key-lift&from=chart").path("all").path("of").asInt())
          .isZero();
      assertThat(desk.json("/api/songs/" + song + "/unusual").path("said").asText())
          .contains("cannot be said: 1 other songs");
      assertThat(desk.json("/api/techniques").path("techniques").findValuesAsText("name"))
          .hasSize(Technique.values().length)
          .contains("borrowed chord")
          .doesNotHaveDuplicates();
      assertThat(desk.get("/api/trends").statusCode()).isEqualTo(400);
      assertThat(desk.get("/api/trends?technique=none").statusCode()).isEqualTo(400);
      assertThat(desk.get("/api/trends?technique=key-lift&by=moon").statusCode()).isEqualTo(400);
      assertThat(desk.get("/api/songs/99/unusual").statusCode()).isEqualTo(404);
    }
  }

  @Test
  void aSongFromMemoryHasAPageAndNoSound() throws Exception {
    try (TestDesk desk = new TestDesk(folder, StandInStudy.in(folder))) {
      long song =
          desk.study
              .withoutSound()
              .remember(
                  new Remembered(
                      Song.Words.ofTags("The Other One", "", 0),
                      "D major",
                      "I iii IV iv",
                      "do re mi",
                      List.of(),
                      ""),
                  "listener");
      assertThat(desk.json("/api/songs").path("songs").get(0).path("origin").asText())
          .isEqualTo("memory");
      JsonNode page = desk.json("/api/songs/" + song);
      assertThat(page.path("chords").findValuesAsText("numeral"))
          .containsExactly("I", "iii", "IV", "iv");
      assertThat(page.path("facts").path("keys").asText()).isEqualTo("D major");
      assertThat(page.path("song").path("origin").asText()).isEqualTo("memory");
      assertThat(desk.get("/api/songs/" + song + "/sound").statusCode()).isEqualTo(400);
    }
  }
}
