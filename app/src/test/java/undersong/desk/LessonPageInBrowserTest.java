package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.browser.PageBrowser;
import undersong.lesson.Lesson;
import undersong.notation.NotationSettings;
import undersong.render.DemoRenderer;
import undersong.render.DemoSongs;
import undersong.render.WavFile;
import undersong.study.Study;

/** A lesson as a student opens it: a file, alone, in a real browser. */
class LessonPageInBrowserTest {
  private static Path folder;
  private static Path recording;
  private static Path other;
  private static Lesson lesson;
  private static Map<String, byte[]> files;

  @BeforeAll
  static void writeALesson(@TempDir Path shared) throws IOException {
    assumeTrue(
        PageBrowser.isThere()
            && LessonPageInBrowserTest.class.getResource("/undersong/desk/page/lesson/lesson.js")
                != null,
        "no Chromium with its driver, or no page of lessons in this build");
    folder = shared;
    recording = folder.resolve("ferries.wav");
    other = folder.resolve("another.wav");
    WavFile.write(DemoRenderer.render(DemoSongs.named("count-the-ferries")), recording);
    WavFile.write(DemoRenderer.render(DemoSongs.named("low-water")), other);
    try (Study study = Study.on(folder.resolve("shelf.db"))) {
      long song = study.study(recording).song().id();
      lesson = study.lessons().draft(song, 6, NotationSettings.DEFAULTS);
      files = study.lessons().files(lesson);
    }
    for (Map.Entry<String, byte[]> file : files.entrySet()) {
      Files.write(folder.resolve(file.getKey()), file.getValue());
    }
  }

  @AfterAll
  static void forget() {
    files = Map.of();
  }

  @Test
  void drawsStavesAloneAtAnyWidthAndAsksForNothing() throws IOException {
    try (PageBrowser browser = opened()) {
      long examples = lesson.items().stream().filter(item -> item.example().isPresent()).count();
      assertThat(
              browser.run(
                  "return [...document.querySelectorAll('.staff')].filter(s =>"
                      + " s.querySelector('svg')).length"))
          .isEqualTo(examples);
      assertThat(browser.run("return performance.getEntriesByType('resource').length"))
          .as("what it loads from elsewhere")
          .isEqualTo(0L);
      browser.picture("lesson-1440");
      browser.size(500, 900);
      browser.until(
          "staves no wider than a phone's page",
          "document.documentElement.scrollWidth <= innerWidth");
      browser.picture("lesson-500");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @Test
  void aStudentsOwnCopyIsKnownAndAnotherSongIsNot() {
    try (PageBrowser browser = opened()) {
      browser.see("#own-copy input[type=file]").sendKeys(other.toString());
      browser.until(
          "another song is refused",
          "document.querySelector('#own-copy [role=status]').textContent.includes('does not run')");
      assertThat(shownOwnButtons(browser)).isZero();
      browser.see("#own-copy input[type=file]").sendKeys(recording.toString());
      browser.until(
          "the same recording is taken",
          "document.querySelector('#own-copy [role=status]').textContent"
              + ".startsWith('Your copy is used')");
      assertThat(shownOwnButtons(browser)).isEqualTo(lesson.items().size());
      browser.run("[...document.querySelectorAll('button.own')][0].click()");
      browser.until(
          "it plays",
          "document.querySelector('button.own').getAttribute('aria-pressed') === 'true'");
    }
  }

  /** Rules of WCAG 2.2, levels A and AA, as far as axe-core can tell by itself. */
  @Test
  void hasNoSeriousFaultOfAccess() throws IOException {
    try (PageBrowser browser = opened()) {
      assumeTrue(PageBrowser.readsRulesOfAccess(), "axe-core is not installed");
      assertThat(browser.faultsOfAccess()).isEmpty();
    }
  }

  /** The browser's own parser of WebVTT reads the chapters as they were meant. */
  @Test
  void chaptersAreReadByTheBrowsersParser() {
    String text = new String(files.get("chapters.vtt"), StandardCharsets.UTF_8);
    try (PageBrowser browser = opened("about:blank")) {
      Object cues =
          browser.await(
              """
              const video = document.createElement('video');
              const track = document.createElement('track');
              track.kind = 'chapters'; track.default = true;
              const read = new Promise((good, bad) => { track.onload = good; track.onerror = () => bad('unread'); });
              track.src = 'data:text/vtt;charset=utf-8,' + encodeURIComponent(arguments_[0]);
              video.append(track); document.body.append(video); track.track.mode = 'hidden';
              await read;
              return [...track.track.cues].map(c => [c.startTime, c.endTime, c.text]);
              """,
              text);
      List<?> read = (List<?>) cues;
      assertThat(read).hasSize((int) text.lines().filter(line -> line.contains("-->")).count());
      assertThat(read.size()).isGreaterThan(1);
      double last = -1;
      for (Object cue : read) {
        double start = ((Number) ((List<?>) cue).get(0)).doubleValue();
        assertThat(start).isGreaterThan(last);
        assertThat(((Number) ((List<?>) cue).get(1)).doubleValue()).isGreaterThan(start);
        last = start;
      }
    }
  }

  private static long shownOwnButtons(PageBrowser browser) {
    return (Long)
        browser.run(
            "return [...document.querySelectorAll('button.own')].filter(b => !b.hidden).length");
  }

  private static PageBrowser opened() {
    PageBrowser browser = opened(folder.resolve("lesson.html").toUri().toString());
    browser.until("staves drawn", "document.body.dataset.drawn === 'true'");
    return browser;
  }

  private static PageBrowser opened(String address) {
    PageBrowser browser = PageBrowser.open();
    browser.go(address);
    return browser;
  }
}
