package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.study.StandInStudy;

/** The made-up reading plays Am F C G in A minor: i bVI bIII bVII against the major scale. */
class SearchRoutesTest {
  @TempDir Path folder;

  @Test
  void musicIsFoundAndItsPlaceTold() throws Exception {
    try (TestDesk desk = new TestDesk(folder, StandInStudy.in(folder))) {
      long song = desk.study.study(TestDesk.song(folder, "low tide.wav")).song().id();
      JsonNode hits = desk.json("/api/search?question=chords%20i%20bVI%20bIII").path("hits");
      assertThat(hits).hasSize(1);
      assertThat(hits.get(0).path("id").asLong()).isEqualTo(song);
      assertThat(hits.get(0).path("places").get(0).path("what").asText()).isEqualTo("chords");
      assertThat(hits.get(0).path("places").get(0).path("startSeconds").isNumber()).isTrue();
      assertThat(desk.json("/api/search?question=chords%20i%20V").path("hits")).isEmpty();
      assertThat(desk.json("/api/search?question=low%20in%20a%20minor").path("hits")).hasSize(1);
      assertThat(desk.get("/api/search?question=chords%20foo").statusCode()).isEqualTo(400);
      assertThat(desk.get("/api/search?question=chords%20foo").body()).contains("foo");
    }
  }

  @Test
  void twoSongsStandSideBySide() throws Exception {
    try (TestDesk desk = new TestDesk(folder, StandInStudy.in(folder))) {
      long one = desk.study.study(TestDesk.song(folder, "low tide.wav")).song().id();
      long other = desk.study.study(TestDesk.song(folder, "high tide.wav", 330)).song().id();
      JsonNode compared = desk.json("/api/compare?first=" + one + "&second=" + other);
      assertThat(compared.path("progression").path("length").asInt()).isGreaterThanOrEqualTo(4);
      assertThat(compared.path("likeness").asDouble()).isGreaterThan(0.9);
      assertThat(compared.path("onlyFirst")).isEmpty();
      assertThat(desk.get("/api/compare?first=99&second=1").statusCode()).isEqualTo(404);
      JsonNode like = desk.json("/api/songs/" + one + "/like?fromSeconds=0&toSeconds=8");
      assertThat(like.path("songs").get(0).path("id").asLong()).isEqualTo(other);
    }
  }

  @Test
  void aLessonIsDraftedAndItsPageIsAFileToKeep() throws Exception {
    try (TestDesk desk = new TestDesk(folder, StandInStudy.in(folder))) {
      long song = desk.study.study(TestDesk.song(folder, "low tide.wav")).song().id();
      JsonNode draft = desk.json("/api/songs/" + song + "/lesson-draft");
      assertThat(draft.path("title").asText()).isEqualTo("low tide");
      long lesson =
          desk.study
              .lessons()
              .add(
                  desk.study.lessons().draft(song, 5, undersong.notation.NotationSettings.DEFAULTS),
                  "Ada")
              .id();
      JsonNode kept = desk.json("/api/songs/" + song + "/lessons").path("lessons").get(0);
      assertThat(kept.path("id").asLong()).isEqualTo(lesson);
      assertThat(kept.path("version").asInt()).isEqualTo(1);
      assertThat(kept.path("author").asText()).isEqualTo("Ada");
      assertThat(kept.path("changes")).isEmpty();
      assertThat(desk.get("/api/lessons/99").statusCode()).isEqualTo(404);
    }
  }

  @Test
  void remarksAreOfferedForALessonAsTheyStand() throws Exception {
    try (TestDesk desk = new TestDesk(folder, StandInStudy.in(folder))) {
      long song = desk.study.study(TestDesk.song(folder, "low tide.wav")).song().id();
      int findings = desk.json("/api/songs/" + song + "/lesson-offers").path("items").size();
      desk.study
          .notebook()
          .remark(song, "Ada", 1, java.util.OptionalDouble.of(3), "Hook\nas *she* sings it");
      JsonNode items = desk.json("/api/songs/" + song + "/lesson-offers").path("items");
      assertThat(items).hasSize(findings + 1);
      JsonNode remark = items.get(findings);
      assertThat(remark.path("heading").asText()).isEqualTo("Hook");
      assertThat(remark.path("words").asText()).isEqualTo("Hook\nas *she* sings it");
      assertThat(remark.path("start").asDouble()).isEqualTo(1);
      assertThat(remark.has("technique")).isFalse();
      assertThat(desk.get("/api/songs/99/lesson-offers").statusCode()).isEqualTo(404);
    }
  }
}
