package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import undersong.browser.PageBrowser;
import undersong.shelf.Song;
import undersong.study.SongsWithoutSound.Remembered;
import undersong.study.StandInStudy;

/**
 * The whole desk, used as listeners use it: a real server, a real browser, a recording of one tone,
 * and a made-up reading of it (120 bpm, 4/4, twelve bars, A minor; music A, B, A).
 */
class DeskInBrowserTest {
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
    browser.see(".cell");
  }

  private void noComplaints() {
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void showsTheSongInWordsAndRows() throws Exception {
    openSong();
    assertThat(browser.texts(".fact summary").get(0)).startsWith("120 bpm");
    assertThat(browser.texts(".symbol")).contains("Am", "F", "C", "G");
    // A returns: its second copy stands under the first, before B.
    assertThat(browser.texts(".row-name strong, .row-name > span:first-child").size())
        .isGreaterThanOrEqualTo(3);
    browser.picture("song-1440");
    browser.size(800, 1000);
    browser.until("a narrow stack", "document.querySelector('.stack').clientWidth < 800");
    browser.until("all in its width", "document.documentElement.scrollWidth <= innerWidth");
    browser.picture("song-800");
    noComplaints();
  }

  /** What the audio thread makes, in the browser's own audio graph, under the page's own rules. */
  @Test
  void playsTheRecordingAtItsPitchWhenSlowedAndLoops() {
    openSong();
    Map<?, ?> heard =
        (Map<?, ?>)
            browser.await(
                """
                const index = await (await fetch('/')).text();
                const main = await (await fetch(/src="([^"]+\\.js)"/.exec(index)[1])).text();
                const reel = /reel\\.worklet-[\\w-]+\\.js/.exec(main)[0];
                const wav = await (await fetch(`/api/songs/${arguments_[0]}/sound`)).arrayBuffer();
                const frames = 1 << 17;
                const play = async (rate, semitones, loop, seconds) => {
                  const context = new OfflineAudioContext(2, seconds * 44100, 44100);
                  await context.audioWorklet.addModule('/assets/' + reel);
                  const node = new AudioWorkletNode(context, 'undersong-reel', {numberOfInputs: 0, outputChannelCount: [2]});
                  const ready = new Promise(done => node.port.onmessage = m => m.data.say === 'ready' && done());
                  node.connect(context.destination);
                  await ready;
                  const tell = message => node.port.postMessage(message);
                  for (let chunk = 0; 44 + chunk * frames * 4 < wav.byteLength; chunk++) {
                    tell({do: 'chunk', source: 'recording', chunk, samples: wav.slice(44 + chunk * frames * 4, 44 + (chunk + 1) * frames * 4)});
                  }
                  tell({do: 'length', frames: (wav.byteLength - 44) / 4});
                  tell({do: 'levels', levels: [{source: 'recording', gain: 1}]});
                  tell({do: 'speed', rate, semitones});
                  tell({do: 'loop', loop});
                  tell({do: 'seek', frame: loop ? loop.start : 0});
                  tell({do: 'play'});
                  await new Promise(done => setTimeout(done, 300));
                  const samples = (await context.startRendering()).getChannelData(0);
                  const steady = samples.subarray(22050);
                  const rises = [];
                  for (let i = 1; i < steady.length; i++) {
                    if (steady[i - 1] < 0 && steady[i] >= 0) rises.push(i - steady[i] / (steady[i] - steady[i - 1]));
                  }
                  let quietest = 1;
                  for (let i = 0; i + 441 < steady.length; i += 441) {
                    let sum = 0;
                    for (let n = i; n < i + 441; n++) sum += steady[n] * steady[n];
                    quietest = Math.min(quietest, Math.sqrt(sum / 441));
                  }
                  return {hertz: (rises.length - 1) * 44100 / (rises[rises.length - 1] - rises[0]), quietest};
                };
                // 44,100 frames hold 440 whole periods: a loop of them closes.
                const loop = {start: 88200, end: 132300};
                return {
                  plain: await play(1, 0, null, 4), slow: await play(0.5, 0, null, 4), low: await play(1, -12, null, 4),
                  looped: await play(1, 0, loop, 6), slowLoop: await play(0.5, 0, loop, 8),
                };
                """,
                song);
    assertThat(hertz(heard, "plain")).isBetween(439.9, 440.1);
    assertThat(hertz(heard, "slow")).isBetween(439.7, 440.3);
    assertThat(hertz(heard, "low")).isBetween(219.85, 220.15);
    assertThat(hertz(heard, "looped")).isBetween(439.9, 440.1);
    // The tone has an effective value of 0.354: a gap of ten milliseconds would show as less.
    for (String way : List.of("plain", "slow", "looped", "slowLoop")) {
      assertThat(number(heard, way, "quietest")).as(way).isGreaterThan(0.25);
    }
    noComplaints();
  }

  private static double hertz(Map<?, ?> heard, String way) {
    return number(heard, way, "hertz");
  }

  private static double number(Map<?, ?> heard, String way, String name) {
    Map<?, ?> one = (Map<?, ?>) heard.get(way);
    return ((Number) one.get(name)).doubleValue();
  }

  @Test
  void thePlayheadKeepsTimeAndALoopGoesRound() {
    openSong();
    browser.run("document.activeElement.blur()");
    browser.press(" ");
    browser.until(
        "it plays", "parseFloat(document.querySelector('.now').textContent.slice(2)) > 0.3");
    Object paces =
        browser.await(
            """
            const now = () => { const [m, s] = document.querySelector('.now span').textContent.split(':'); return 60 * m + parseFloat(s); };
            const from = now(), t = performance.now();
            await new Promise(done => setTimeout(done, 3000));
            return (now() - from) / ((performance.now() - t) / 1000);
            """);
    assertThat(((Number) paces).doubleValue()).isBetween(0.93, 1.07);
    browser.press(" ");
    browser.see(".cell[data-bar='2']").click();
    browser.press("a");
    assertThat(browser.text(".caution")).contains("80 dB");
    browser.see(".caution button").click();
    browser.run("document.activeElement.blur()");
    browser.press(" ");
    for (int i = 0; i < 10; i++) {
      Object at =
          browser.await(
              """
              await new Promise(done => setTimeout(done, 330));
              const [m, s] = document.querySelector('.now span').textContent.split(':'); return 60 * m + parseFloat(s);
              """);
      assertThat(((Number) at).doubleValue()).isBetween(3.9, 6.1);
    }
    noComplaints();
  }

  @Test
  void correctsByKeyboardAloneOffersTheCopiesAndUndoesAfterARestart() throws Exception {
    openSong();
    browser.see(".cell[data-bar='0']").sendKeys(Keys.ARROW_RIGHT);
    browser.until("the next bar", "document.activeElement.dataset.bar === '1'");
    browser.press("c");
    browser.until("the form", "document.activeElement.matches('.part input, .part button')");
    browser.run("document.querySelector('.part input').focus()");
    browser.press("Dm7");
    browser.until(
        "what was understood",
        "document.querySelector('#understood').textContent.includes('D:min7')");
    browser.press(Keys.ENTER);
    browser.until(
        "the new chord",
        "[...document.querySelectorAll('.symbol')].some(e => e.textContent === 'Dm7')");
    browser.see(".offers button").sendKeys(Keys.ENTER);
    // The copy stands a tone higher.
    browser.until(
        "the copy as well",
        "[...document.querySelectorAll('.symbol')].some(e => e.textContent === 'Em7')");

    desk.close();
    desk = new TestDesk(folder, StandInStudy.in(folder));
    openSong();
    assertThat(browser.texts(".symbol")).contains("Dm7", "Em7");
    browser.run("document.activeElement.blur()");
    browser.pressWith(Keys.CONTROL, "z");
    browser.until(
        "the copy is as it was",
        "![...document.querySelectorAll('.symbol')].some(e => e.textContent === 'Em7')");
    browser.pressWith(Keys.CONTROL, "z");
    browser.until(
        "and so is the first",
        "![...document.querySelectorAll('.symbol')].some(e => e.textContent === 'Dm7')");
  }

  @Test
  void anotherKeyGivesOtherSyllablesInBothWindows() throws Exception {
    openSong();
    List<String> before = browser.texts(".contour.bass text");
    assertThat(before).isNotEmpty();
    // Said by a script, as if from another window.
    desk.post(
        "/api/songs/" + song + "/corrections",
        "{\"corrections\": [{\"kind\": \"KeyOver\", \"span\": [0, 24], \"key\": \"C minor\"}]}");
    browser.until(
        "other syllables",
        "JSON.stringify([...document.querySelectorAll('.contour.bass text')].map(e =>"
            + " e.textContent)) !== JSON.stringify(arguments[0])",
        before);
    assertThat(browser.text(".facts")).contains("C natural minor");
    noComplaints();
  }

  @Test
  void keepsRemarksAndHidesTheReadingFromTheEar() {
    openSong();
    browser.run("document.activeElement.blur()");
    browser.press("r");
    browser.see(".remark-form input");
    browser.press("the tone waits", Keys.ENTER);
    browser.until(
        "the remark", "document.querySelector('.remarks')?.textContent.includes('the tone waits')");
    browser.run("document.activeElement.blur()");
    browser.press("z");
    browser.see(".ear-first");
    assertThat(
            browser.texts(
                ".stack, .facts, .finding, .loudness, .bracket, .close-up, .finding-mark"))
        .isEmpty();
    assertThat(browser.text("main"))
        .contains("the tone waits")
        .doesNotContain("minor")
        .doesNotContain("bpm");
    noComplaints();
  }

  @Test
  void bringsInWhatIsGivenAndSaysWhatIsNotSound() throws Exception {
    browser.go(desk.uri("/"));
    Path other = TestDesk.song(folder, "second tide.wav");
    browser.see(".bring-in input[type=file]").sendKeys(other.toString());
    browser.until(
        "it is on the list",
        "[...document.querySelectorAll('.songs th a')].some(e => e.textContent === 'second tide')");
    Path letter = Files.writeString(folder.resolve("letter.wav"), "Dear all, this is no sound.");
    browser.see(".bring-in input[type=file]").sendKeys(letter.toString());
    browser.until("a reason", "document.querySelector('.queue .trouble') !== null");
    assertThat(browser.text(".queue .trouble")).isNotBlank();
    browser.see("#search").sendKeys("second");
    browser.until(
        "only what was sought", "document.querySelectorAll('.songs tbody tr').length === 1");
  }

  @Test
  void countsOnTheShelfAndSaysWhereItCannotTell() throws Exception {
    browser.go(desk.uri("/#/trends"));
    browser.see(".trend-form option[value=origin]").click();
    browser.see(".trend-form input").sendKeys("i bVI bIII");
    browser.until(
        "an answer in words",
        "document.querySelector('.said')?.textContent.startsWith('Nothing can be said')");
    browser.until(
        "the song's title", "document.querySelector('.trend td a')?.textContent === 'low tide'");
    assertThat(browser.text(".trend .few small")).contains("too few songs");
    browser.picture("trends-1440");
    browser.see(".trend-form input").sendKeys(" moon");
    browser.until("a reason", "document.querySelector('.trends .trouble') !== null");
  }

  @Test
  void aSongWithoutSoundSaysSoAndOffersNothingToPlay() throws Exception {
    long remembered =
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
    browser.go(desk.uri("/"));
    browser.until(
        "it is told apart",
        "document.querySelector('.songs')?.textContent.includes('from memory, no sound')");
    browser.go(desk.uri("/#/song/" + remembered));
    browser.see(".cell");
    assertThat(browser.text(".foot-bar")).contains("no recording to play");
    assertThat(browser.texts(".foot button.main")).isEmpty();
    noComplaints();
  }

  @Test
  void fitsAPhoneWithoutScrollingSideways() throws Exception {
    browser.size(390, 800);
    for (String place : places()) {
      openPlace(place);
      assertThat(browser.run("return document.documentElement.scrollWidth <= innerWidth"))
          .as(place)
          .isEqualTo(true);
    }
  }

  /** Rules of WCAG 2.2, levels A and AA, as far as axe-core can tell by itself. */
  @Test
  void hasNoSeriousFaultOfAccess() throws Exception {
    assumeTrue(PageBrowser.readsRulesOfAccess(), "axe-core is not installed");
    for (String place : places()) {
      openPlace(place);
      if (place.equals("/#/song/" + song)) {
        browser.see(".cell").sendKeys(Keys.ENTER);
        browser.see(".staff svg");
      }
      assertThat(browser.faultsOfAccess()).as(place).isEmpty();
    }
  }

  /** Every place of the page, and what is there once it is drawn. */
  private Map<String, String> drawn() {
    return Map.of(
        "/#/song/" + song,
        ".cell",
        "/",
        ".songs th a",
        "/#/trends",
        "main select",
        "/#/settings",
        "main select",
        "/#/compare/" + song + "/" + song,
        ".compare svg",
        "/#/song/" + song + "/lesson",
        ".lesson-deeds",
        "/#/song/" + song + "/drills",
        ".drill-prompt",
        "/#/sketch/key-lift/" + song,
        ".sketch-words");
  }

  private List<String> places() {
    return drawn().keySet().stream().sorted().toList();
  }

  private void openPlace(String place) {
    browser.go(desk.uri(place));
    browser.see(drawn().get(place));
  }

  /** With the tabulator alone one comes to everything that can be pressed, chosen or filled in. */
  @Test
  void everythingIsReachedByKeyboard() {
    for (String place : places()) {
      openPlace(place);
      browser.run("document.activeElement?.blur(); scrollTo(0, 0)");
      Object count = browser.run("return " + TABBED + ".length");
      for (long i = 0; i < 2 * (Long) count + 8; i++) {
        browser.run("document.activeElement?.setAttribute('data-visited', '')");
        browser.press(Keys.TAB);
      }
      assertThat(
              (List<?>)
                  browser.run(
                      "return "
                          + TABBED
                          + ".filter(e => !('visited' in e.dataset)).map(e => e.outerHTML.slice(0,"
                          + " 120))"))
          .as(place)
          .isEmpty();
    }
    openPlace("/#/song/" + song + "/drills");
    browser.run(
        "[...document.querySelectorAll('main button')].find(b => b.textContent ==="
            + " 'Next').focus()");
    browser.press(Keys.ENTER);
    browser.until(
        "the next exercise",
        "document.querySelector('.drill-prompt').textContent.startsWith('2 of')");
  }

  private static final String TABBED =
      "[...document.querySelectorAll('a[href], button:not(:disabled), select, textarea,"
          + " input:not(:disabled), summary, [tabindex=\"0\"]')].filter(e => e.tabIndex >= 0 &&"
          + " e.checkVisibility({visibilityProperty: true}) && !e.closest('dialog:not([open])'))";

  @Test
  void listsItsKeysAndReadsAsATable() {
    openSong();
    browser.run("document.activeElement.blur()");
    browser.press("?");
    browser.until("the list", "document.querySelector('.key-help').open");
    browser.press(Keys.ESCAPE);
    browser.see(".stack-tools button").click();
    assertThat(browser.texts(".bars-table tbody tr")).hasSize(12);
    assertThat(browser.see(".bars-table").findElements(By.tagName("caption"))).isNotEmpty();
    noComplaints();
  }

  @Test
  void listsInFullWhatACopyDoesOtherwise() {
    openSong();
    browser.see(".row-name button").sendKeys(Keys.ENTER);
    browser.until("the list", "document.querySelector('.differences').open");
    assertThat(browser.text(".differences h2")).contains("held against");
    assertThat(browser.texts(".differences tbody td:nth-child(2)"))
        .isNotEmpty()
        .allMatch(words -> !words.isBlank() && !words.contains("…"));
    String bar = browser.text(".differences tbody th");
    browser.see(".differences tbody th button").sendKeys(Keys.ENTER);
    browser.until("it goes away", "!document.querySelector('.differences').open");
    assertThat(browser.run("return document.querySelector('.cell.current').ariaLabel"))
        .asString()
        .startsWith("Bar " + bar + ",");
    noComplaints();
  }

  @Test
  void hidesNoNameOfAChordBehindAnother() {
    openSong();
    for (int width : List.of(1440, 800, 390)) {
      browser.size(width, 1600);
      browser.until("drawn anew", "document.querySelector('.stack').clientWidth < " + width);
      assertThat((List<?>) browser.run(OVERLAPPING)).as(width + " pixels").isEmpty();
    }
  }

  /** Names of chords and numerals of one line that share some of the page. */
  private static final String OVERLAPPING =
      """
      return [...document.querySelectorAll('svg.line')].flatMap(line => {
        const words = [...line.querySelectorAll('.chord text')];
        const boxes = words.map(one => one.getBoundingClientRect());
        return boxes.flatMap((a, i) => boxes.slice(i + 1).flatMap((b, j) =>
          Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.5 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 6
            ? [words[i].textContent + ' / ' + words[i + 1 + j].textContent] : []));
      });
      """;

  @Test
  void theShelfShowsWhatWasStudied() throws Exception {
    browser.go(desk.uri("/"));
    browser.see(".songs th a");
    assertThat(browser.texts(".songs th a")).containsExactly("low tide");
    assertThat(browser.complaints()).isEmpty();
  }

  /**
   * A script that somebody sneaks into the page does not run, and nothing is fetched from
   * elsewhere.
   */
  @Test
  void thePageRunsNoForeignScripts() throws Exception {
    browser.go(desk.uri("/"));
    browser.see(".songs th a");
    browser.run(
        "const s = document.createElement('script'); s.textContent = 'window.sneaked = 1';"
            + " document.body.append(s);");
    assertThat(browser.run("return window.sneaked === undefined")).isEqualTo(true);
    Object fetched =
        browser.await("return fetch('http://localhost:1/').then(() => 'yes', () => 'no');");
    assertThat(fetched).isEqualTo("no");
    assertThat(browser.complaints()).anyMatch(line -> line.contains("Content Security Policy"));
    assertThat(
            browser.run(
                "return performance.getEntriesByType('resource')"
                    + ".every(r => r.name.startsWith(location.origin))"))
        .isEqualTo(true);
  }
}
