package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.browser.PageBrowser;
import undersong.study.StandInStudy;
import undersong.study.Study;

/** A song on the shelf that a later version of the program must listen to again. */
class OpeningInBrowserTest {
  @TempDir Path folder;

  @Test
  void whoWaitsForASongIsToldWhatIsDoneAndHowFar() throws Exception {
    assumeTrue(PageBrowser.isThere(), "no Chromium with its driver, or no page in this build");
    long song;
    try (Study before = StandInStudy.in(folder)) {
      song = before.study(TestDesk.song(folder, "low tide.wav")).song().id();
    }
    CountDownLatch gate = new CountDownLatch(1);
    try (TestDesk desk = new TestDesk(folder, StandInStudy.later(folder, gate));
        PageBrowser browser = PageBrowser.open()) {
      browser.go(desk.uri("/#/song/" + song));
      browser.see("main .opening progress");
      assertThat(browser.text("main .opening")).contains("listened to anew").contains("measuring");
      assertThat(browser.run("return document.querySelector('.opening progress').value"))
          .isEqualTo(0.5);
      gate.countDown();
      browser.see(".stack .symbol");
      assertThat(browser.texts("main .opening")).isEmpty();
      assertThat(browser.complaints()).isEmpty();
    }
  }
}
