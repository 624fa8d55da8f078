package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.browser.PageBrowser;
import undersong.study.StandInStudy;

/** Several recordings given at once, while measuring the first of them is held up. */
class QueueInBrowserTest {
  @TempDir Path folder;
  private final CountDownLatch measuring = new CountDownLatch(1);
  private TestDesk desk;
  private PageBrowser browser;

  @BeforeEach
  void open() throws Exception {
    assumeTrue(PageBrowser.isThere(), "no Chromium with its driver, or no page in this build");
    desk = new TestDesk(folder, StandInStudy.in(folder, measuring));
    browser = PageBrowser.open();
    browser.go(desk.uri("/"));
  }

  @AfterEach
  void close() {
    measuring.countDown();
    if (browser != null) {
      browser.close();
    }
    if (desk != null) {
      desk.close();
    }
  }

  /** The queue's line of a file. */
  private static final String LINE =
      "[...document.querySelectorAll('.queue li')].find(l => l.textContent.includes(arguments[0]))";

  private void untilLine(String file, String holds) {
    browser.until(
        file + ": " + holds,
        "(" + LINE + ")?.textContent.includes(arguments[1]) === true",
        file,
        holds);
  }

  private void press(String file, String button) {
    browser.run(
        "[...("
            + LINE
            + ").querySelectorAll('button')].find(b => b.textContent === arguments[1]).click()",
        file,
        button);
  }

  private void give(Path... files) {
    StringBuilder all = new StringBuilder();
    for (Path file : files) {
      all.append(all.length() == 0 ? "" : "\n").append(file);
    }
    browser.see(".bring-in input[type=file]").sendKeys(all.toString());
  }

  @Test
  void oneIsMeasuredTheOthersWaitAndEachCanBeCancelled() throws Exception {
    give(
        TestDesk.song(folder, "first tide.wav", 440),
        TestDesk.song(folder, "second tide.wav", 330),
        TestDesk.song(folder, "third tide.wav", 550));
    untilLine("first tide", "measuring");
    assertThat(browser.run("return (" + LINE + ").querySelector('progress').value", "first tide"))
        .isEqualTo(0.5);
    untilLine("second tide", "waits");
    untilLine("third tide", "waits");
    // One that waits, then the one that is being measured: neither holds up the third.
    press("second tide", "Cancel");
    untilLine("second tide", "cancelled");
    press("first tide", "Cancel");
    untilLine("first tide", "cancelled");
    untilLine("third tide", "measuring");
    measuring.countDown();
    browser.until(
        "the third is on the list",
        "[...document.querySelectorAll('.songs th a')].some(e => e.textContent === 'third tide')");
    assertThat(browser.texts(".songs th a")).containsExactly("third tide");
    untilLine("third tide", "open");
    press("second tide", "Clear");
    browser.until("it is gone", "(" + LINE + ") === undefined", "second tide");
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void whatIsNoSoundSaysSoAndTheNextIsStudied() throws Exception {
    measuring.countDown();
    Path letter = Files.writeString(folder.resolve("letter.mp3"), "Dear all, this is no sound.");
    Path empty = Files.createFile(folder.resolve("empty.wav"));
    give(letter, empty, TestDesk.song(folder, "low tide.wav"));
    untilLine("low tide", "open");
    Map<String, String> reasons =
        Map.of("letter.mp3", "not a sound file", "empty.wav", "is empty (0 bytes)");
    for (String file : reasons.keySet()) {
      untilLine(file, "could not be studied");
      assertThat(
              String.valueOf(
                  browser.run("return (" + LINE + ").querySelector('.trouble').textContent", file)))
          .as(file)
          .contains(reasons.get(file))
          .doesNotContain("Exception")
          .doesNotContain(folder.toString());
    }
    browser.see(".songs th a"); // the list comes a moment after the queue
    assertThat(browser.texts(".songs th a")).containsExactly("low tide");
  }
}
