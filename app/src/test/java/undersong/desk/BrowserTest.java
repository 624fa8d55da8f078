package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.study.StandInStudy;

/** The page as a browser shows it, under the rules the server sets. */
class BrowserTest {
  @TempDir Path folder;
  private TestDesk desk;

  @BeforeEach
  void open() throws Exception {
    assumeTrue(PageBrowser.isThere(), "no Chromium with its driver, or no page in this build");
    desk = new TestDesk(folder, StandInStudy.in(folder));
    desk.study.study(TestDesk.song(folder, "low tide.wav"));
  }

  @AfterEach
  void close() {
    if (desk != null) {
      desk.close();
    }
  }

  @Test
  void theShelfShowsWhatWasStudied() throws Exception {
    try (PageBrowser browser = PageBrowser.open()) {
      browser.go(desk.uri("/"));
      browser.see(".songs th a");
      assertThat(browser.texts(".songs th a")).containsExactly("low tide");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  /**
   * A script that somebody sneaks into the page does not run, and nothing is fetched from
   * elsewhere.
   */
  @Test
  void thePageRunsNoForeignScripts() throws Exception {
    try (PageBrowser browser = PageBrowser.open()) {
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
}
