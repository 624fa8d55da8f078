package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import undersong.browser.PageBrowser;
import undersong.shelf.ShelfPlace;
import undersong.shelf.Store;
import undersong.study.StandInStudy;

/** Two desks, each on its own machine as it were, on one shelf on a server. */
class SharedDeskTest {
  private static final String SECOND_BAR =
      "{\"corrections\": [{\"kind\": \"ChordOver\", \"span\": [2, 4], \"chord\": \"Dm7\"}]}";

  @TempDir Path folder;
  private TestDesk ada;
  private TestDesk ben;
  private String song;

  @BeforeEach
  void open() throws Exception {
    ShelfPlace place = Store.SERVER.fresh(folder);
    ada = desk(place, "ada");
    ben = desk(place, "ben");
    Path recording = TestDesk.song(folder, "low tide.wav");
    song = "/api/songs/" + ada.study.study(recording).song().id();
    ben.study.study(Files.copy(recording, folder.resolve("the same.wav")));
  }

  private TestDesk desk(ShelfPlace place, String name) throws Exception {
    Path own = Files.createDirectories(folder.resolve(name));
    return new TestDesk(own, StandInStudy.on(Store.elsewhere(place, own)));
  }

  @AfterEach
  void close() {
    ada.close();
    ben.close();
    ada.study.close();
    ben.study.close();
  }

  private static void call(TestDesk desk, String name) throws Exception {
    assertThat(desk.send("PUT", "/api/speaker", "{\"name\": \"%s\"}".formatted(name)).statusCode())
        .isEqualTo(200);
  }

  @Test
  void whoSpeaksIsAskedRememberedAndStandsOnEveryWord() throws Exception {
    JsonNode before = ada.json("/api/speaker");
    assertThat(before.path("name").asText()).isEqualTo("listener");
    assertThat(before.path("given").asBoolean()).isFalse();
    assertThat(before.path("shared").asBoolean()).isTrue();
    call(ada, "Ada");
    call(ben, "Ben");
    assertThat(ada.send("PUT", "/api/speaker", "{\"name\": \" \"}").statusCode()).isEqualTo(400);
    ada.post(song + "/corrections", SECOND_BAR);
    ben.post(song + "/corrections", SECOND_BAR.replace("Dm7", "F"));
    ada.post(song + "/remarks", "{\"startSeconds\": 3, \"text\": \"listen\"}");
    long remark = ben.json(song).path("remarks").get(0).path("id").asLong();
    ben.send(
        "PUT", song + "/remarks/" + remark, "{\"startSeconds\": 3, \"text\": \"listen here\"}");
    ada.send("PATCH", song, "{\"title\": \"Low Tide\"}");
    ben.send("PATCH", song, "{\"title\": \"Ebb\"}");
    JsonNode page = ada.json(song);
    assertThat(page.path("steps").findValuesAsText("author")).containsExactly("Ada", "Ben");
    JsonNode reworded = page.path("remarks").get(0);
    assertThat(reworded.path("author").asText()).isEqualTo("Ben");
    assertThat(reworded.path("earlier").get(0).path("text").asText()).isEqualTo("listen");
    assertThat(reworded.path("earlier").get(0).path("author").asText()).isEqualTo("Ada");
    assertThat(page.path("song").path("title").asText()).isEqualTo("Ebb");
    assertThat(page.path("earlierWords").get(0).path("title").asText()).isEqualTo("Low Tide");
  }

  @Test
  void wordingsAreEachSpeakersOwn() throws Exception {
    call(ada, "Ada");
    call(ben, "Ben");
    ada.send("PATCH", "/api/settings", "{\"noteNames\": \"german\"}");
    assertThat(ada.json("/api/settings").path("noteNames").asText()).isEqualTo("german");
    assertThat(ben.json("/api/settings").path("noteNames").asText()).isEqualTo("english");
    call(ben, "Ada");
    assertThat(ben.json("/api/settings").path("noteNames").asText()).isEqualTo("german");
  }

  @Test
  void thePageAsksForANameAndShowsTheOthersWords() throws Exception {
    assumeTrue(PageBrowser.isThere(), "no Chromium with its driver, or no page in this build");
    call(ben, "Ben");
    ben.post(song + "/corrections", SECOND_BAR);
    ben.post(song + "/remarks", "{\"startSeconds\": 3, \"text\": \"listen\"}");
    try (PageBrowser browser = PageBrowser.open()) {
      browser.go(ada.uri("/#/song/" + song.substring("/api/songs/".length())));
      browser.see(".cell");
      browser.see(".who input").sendKeys("Ada");
      browser.see(".who button").click();
      browser.until("the question is gone", "document.querySelector('.who') === null");
      assertThat(browser.text(".steps")).contains("(Ben)");
      // The bar at the foot may lie over them; keys reach them all the same.
      browser.see(".remarks button[aria-label^=Reword]").sendKeys(Keys.ENTER);
      browser.see(".remarks input").sendKeys(" to the bass", Keys.ENTER);
      browser.until(
          "the earlier wording beneath",
          "document.querySelector('.earlier')?.textContent === 'before: listen (Ben)'");
      // The news of it may be drawn before the form's own answer closes the form.
      browser.until(
          "the new wording",
          "document.querySelector('.remarks').textContent.includes('listen to the bass (Ada)')");
      // What the other says meanwhile comes by itself.
      ben.post(song + "/corrections", SECOND_BAR.replace("Dm7", "Em"));
      browser.until("two steps", "document.querySelectorAll('.steps li').length === 2");
      browser.picture("shared-1440");
      browser.go(ada.uri("/#/settings"));
      browser.until(
          "the name in the settings", "document.querySelector('.speaker input')?.value === 'Ada'");
      browser.picture("speaker-1440");
      assertThat(browser.complaints()).isEmpty();
    }
  }
}
