package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.browser.PageBrowser;
import undersong.study.StandInStudy;

/** What the margin tells of a made-up reading that ends open and goes up a tone. */
class FindingsInBrowserTest {
  @TempDir Path folder;
  private TestDesk desk;
  private PageBrowser browser;
  private long song;

  @BeforeEach
  void open() throws Exception {
    assumeTrue(PageBrowser.isThere(), "no Chromium with its driver, or no page in this build");
    desk = new TestDesk(folder, StandInStudy.in(folder));
    song = desk.study.study(TestDesk.song(folder, "low tide.wav")).song().id();
    browser = PageBrowser.open();
    openSong();
  }

  @AfterEach
  void close() {
    if (browser != null) {
      browser.close();
    }
    if (desk != null) {
      desk.close();
    }
  }

  private void openSong() {
    browser.go(desk.uri("/#/song/" + song));
    browser.see(".finding");
  }

  private void startAgain() throws Exception {
    desk.close();
    desk = new TestDesk(folder, StandInStudy.in(folder));
    openSong();
  }

  private static final String FINDING =
      "[...document.querySelectorAll('.finding')].find(f => f.querySelector('strong').textContent"
          + " === arguments[0])";

  private void unfold(String name) {
    browser.run("(" + FINDING + ").open = true", name);
    browser.until("it is unfolded", "!!(" + FINDING + ").querySelector('.verdict')", name);
  }

  private void press(String name, String button) {
    browser.run(
        "[...("
            + FINDING
            + ").querySelectorAll('button')].find(b => b.textContent === arguments[1]).click()",
        name,
        button);
  }

  private List<String> names() {
    return browser.texts(".finding > summary strong");
  }

  @Test
  void aVerdictIsKeptOverARestart() throws Exception {
    List<String> names = names();
    String held = names.get(0);
    String denied = names.get(1);
    unfold(held);
    press(held, "It holds");
    browser.until(
        "what was said", "(" + FINDING + ").textContent.includes('You said: it holds')", held);
    unfold(denied);
    press(denied, "It does not");
    browser.until("it is told no more", "(" + FINDING + ") === undefined", denied);
    startAgain();
    assertThat(names()).contains(held).doesNotContain(denied);
    unfold(held);
    assertThat(browser.run("return (" + FINDING + ").textContent", held))
        .asString()
        .contains("You said: it holds");
    assertThat(browser.text(".margin")).contains("Held not to be so (1)").contains(denied);
    press(held, "take back");
    browser.until(
        "it is open again",
        "![...document.querySelectorAll('.verdict')].some(v => v.textContent.includes('You"
            + " said'))");
    browser.run(
        "[...document.querySelectorAll('details')].find(d => d.textContent.startsWith('Held not'))"
            + ".querySelector('button').click()");
    browser.until("it is told again", "(" + FINDING + ") !== undefined", denied);
    assertThat(names()).containsExactlyElementsOf(names);
  }

  /** Rows come first, findings follow; in the end both are what the desk holds. */
  @Test
  void findingsFollowWhatIsSaid() throws Exception {
    List<String> before = names();
    desk.post(
        "/api/songs/" + song + "/corrections",
        "{\"corrections\": [{\"kind\": \"KeyOver\", \"span\": [0, 24], \"key\": \"A minor\"}]}");
    browser.until(
        "the findings of the new reading",
        "document.querySelector('main').dataset.revision === '2'"
            + " && document.querySelector('.margin').dataset.revision === '2'"
            + " && document.querySelector('.margin').ariaBusy === 'false'");
    List<String> after = names();
    assertThat(after).isNotEqualTo(before);
    openSong();
    assertThat(names()).isEqualTo(after);
    assertThat(browser.complaints()).isEmpty();
  }
}
