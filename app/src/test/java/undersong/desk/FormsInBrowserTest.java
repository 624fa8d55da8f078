package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.browser.PageBrowser;
import undersong.render.DemoRenderer;
import undersong.render.DemoSongs;
import undersong.render.WavFile;
import undersong.study.Study;

/**
 * The forms of close listening, on a real reading of a demo song whose chorus returns: what is said
 * of voices, lines, places, echoes and layers, and what follows from it on the page.
 */
class FormsInBrowserTest {
  /** A bar of the second chorus: it is held against the first. */
  private static final int BAR = 35;

  @TempDir static Path folder;
  private static TestDesk desk;
  private static long song;
  private PageBrowser browser;

  @BeforeAll
  static void study() throws Exception {
    assumeTrue(PageBrowser.isThere(), "no Chromium with its driver, or no page in this build");
    Path file = folder.resolve("ferries.wav");
    WavFile.write(DemoRenderer.render(DemoSongs.all().get(1)), file);
    Study study = Study.on(folder.resolve("shelf.db"));
    desk = new TestDesk(folder, study);
    song = study.study(file).song().id();
  }

  @AfterAll
  static void end() {
    if (desk != null) {
      desk.close();
    }
  }

  @BeforeEach
  void openTheBar() {
    browser = PageBrowser.open();
    browser.size(1440, 3200);
    browser.go(desk.uri("/#/song/" + song));
    browser.see(".cell");
    browser.until("the bar is drawn", "!!" + CELL, BAR);
    browser.run(CELL + ".focus()", BAR);
    browser.press("\n");
    browser.see(".close-up");
  }

  @AfterEach
  void takeBack() {
    if (browser != null) {
      browser.close();
    }
  }

  private static final String CELL =
      "[...document.querySelectorAll('.cell')].find(c => c.ariaLabel.startsWith('Bar ' +"
          + " arguments[0] + ','))";

  private static final String PART =
      "[...document.querySelectorAll('.part')].find(p => p.querySelector('summary').textContent ==="
          + " arguments[0])";

  private String part(String title) {
    browser.run(PART + ".open = true", title);
    return String.valueOf(browser.run("return " + PART + ".innerText", title));
  }

  /** Fills in the field of the part's last form and sends it, as a press on its button does. */
  private void say(String title, String field, String words) {
    browser.run(
        "const form = [..."
            + PART
            + ".querySelectorAll('form')].at(-1); const at = form.elements[arguments[1]]; const"
            + " kind = at instanceof HTMLSelectElement ? HTMLSelectElement : HTMLInputElement;"
            + " Object.getOwnPropertyDescriptor(kind.prototype, 'value').set.call(at,"
            + " arguments[2]); at.dispatchEvent(new Event('input', {bubbles: true}));"
            + " at.dispatchEvent(new Event('change', {bubbles: true}));",
        title,
        field,
        words);
  }

  private void send(String title) {
    browser.run("[..." + PART + ".querySelectorAll('form')].at(-1).requestSubmit()", title);
    browser.see(".aftermath");
  }

  private void choose(String title, String value) {
    browser.run(
        "const at = "
            + PART
            + ".querySelector('select'); at.value = [...at.options].find(o => o.textContent ==="
            + " arguments[1]).value; at.dispatchEvent(new Event('change', {bubbles: true}))",
        title,
        value);
  }

  private void untilBarSays(String words) {
    browser.until("the bar says " + words, CELL + "?.ariaLabel.includes(arguments[1])", BAR, words);
  }

  private void undo() {
    browser.run(
        "[...document.querySelectorAll('.aftermath button')].find(b => b.textContent ==="
            + " 'Undo').click()");
  }

  @Test
  void aNoteOfAnotherVoiceIsADifferenceFromTheEarlierCopy() {
    part("Further voices");
    choose("Further voices", "a voice not heard yet");
    say("Further voices", "pitch", "C5");
    send("Further voices");
    untilBarSays("adds C5 on beat 1");
    assertThat(part("Further voices")).contains("C5");
    assertThat(browser.text(".aftermath")).contains("voices");
    undo();
    browser.until("it is as before", "!" + CELL + "?.ariaLabel.includes('adds C5 on beat 1')", BAR);
  }

  @Test
  void aNoteOfALineIsADifferenceFromTheEarlierCopy() {
    part("Lines of the accompaniment");
    choose("Lines of the accompaniment", "a line not heard yet");
    say("Lines of the accompaniment", "pitch", "C6");
    send("Lines of the accompaniment");
    untilBarSays("adds C6 on beat 1");
    assertThat(browser.text(".aftermath")).contains("lines");
    undo();
  }

  @Test
  void aPlaceFromLeftToRightIsShownAboveTheBar() {
    part("Left and right");
    say("Left and right", "place", "-0.8");
    send("Left and right");
    browser.until(
        "the place is listed",
        PART + "?.innerText.includes('the lead: 80 % left')",
        "Left and right");
    browser.until(
        "and drawn",
        "[...document.querySelectorAll('.places-mark title')].some(t => t.textContent.includes('80"
            + " % left'))");
    undo();
  }

  @Test
  void anEchoIsListedAndCanBeDenied() {
    part("Echoes");
    say("Echoes", "lag", "352");
    send("Echoes");
    browser.until("the echo is listed", PART + "?.innerText.includes('352 ms')", "Echoes");
    assertThat(browser.text(".aftermath")).contains("echoes");
    browser.run(
        "[..."
            + PART
            + ".querySelectorAll('button')].find(b => b.textContent === 'Nothing comes"
            + " back').click()",
        "Echoes");
    browser.until("it is gone", "!" + PART + "?.innerText.includes('352 ms')", "Echoes");
    undo();
    browser.until("and back", PART + "?.innerText.includes('352 ms')", "Echoes");
    undo();
  }

  @Test
  void aRoomIsSaidAndListed() {
    part("Room");
    say("Room", "decay", "3.7");
    say("Room", "level", "-9");
    send("Room");
    browser.until(
        "the room is listed",
        PART + "?.innerText.includes('9 dB under the direct sound, falls in 3.7 s')",
        "Room");
    assertThat(browser.text(".aftermath")).contains("echoes");
    undo();
    browser.until("it is gone", "!" + PART + "?.innerText.includes('falls in 3.7 s')", "Room");
  }

  @Test
  void aLayerThatIsDeniedLeavesUnderTheBar() {
    part("Layers");
    browser.run(
        "[..."
            + PART
            + ".querySelectorAll('button')].find(b => b.textContent === 'No kick"
            + " here').click()",
        "Layers");
    browser.see(".aftermath");
    untilBarSays("Leaves: kick");
    undo();
    browser.until("it sounds again", "!" + CELL + "?.ariaLabel.includes('Leaves: kick')", BAR);
  }
}
