package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.awt.image.BufferedImage;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.browser.PageBrowser;
import undersong.study.StandInStudy;

/**
 * What the page shows by more than words can be told without colour: two states of a thing differ
 * where luminances differ by three to one or more, as WCAG 2.2 (success criterion 1.4.11) asks of
 * graphics, over more points than a hair.
 */
class BlackAndWhiteInBrowserTest {
  private static final double CONTRAST = 3;
  private static final int POINTS = 30;

  private static final String REMARK =
      """
      const token = document.querySelector('meta[name="undersong-token"]').content;
      const song = location.hash.split('/').at(-1);
      await fetch(`/api/songs/${song}/remarks`, {method: 'POST', body: '{"startSeconds": 21, "text": "here"}',
        headers: {'X-Undersong-Token': token, 'Content-Type': 'application/json'}});
      while (!document.querySelector('.remark-mark')) await new Promise(done => setTimeout(done, 50));
      """;

  @TempDir Path folder;
  private TestDesk desk;
  private PageBrowser browser;

  @BeforeEach
  void open() throws Exception {
    assumeTrue(PageBrowser.isThere(), "no Chromium with its driver, or no page in this build");
    desk = new TestDesk(folder, StandInStudy.in(folder));
    long song = desk.study.study(TestDesk.song(folder, "low tide.wav")).song().id();
    browser = PageBrowser.open();
    browser.go(desk.uri("/#/song/" + song));
    browser.see(".finding");
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

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void statesDifferWithoutColour(boolean dark) throws Exception {
    browser.dark(dark);
    browser.run("document.querySelectorAll('.cell')[1].focus()");
    differ(".cell[data-bar='2']", "document.querySelectorAll('.cell')[2].focus()");
    String chooseOnwards =
        "document.activeElement.dispatchEvent(new KeyboardEvent('keydown',"
            + " {key: 'ArrowRight', shiftKey: true, bubbles: true, cancelable: true}))";
    differ(".cell[data-bar='3']", chooseOnwards);
    differ(".strip", chooseOnwards);
    differ(".foot-bar button:not(.main)[aria-pressed=false]", press("Loop chosen"));
    differ(".strip", REMARK);
  }

  /** Strokes of what is the same in a copy, of what is another there and of what is unsure. */
  @Test
  void strokesOfTheStackDifferInShapeOrGrey() {
    assertThat(style(".contour path.unsure", "strokeDasharray")).isNotEqualTo("none");
    assertThat(style(".chord.varied .symbol", "textDecorationLine")).isEqualTo("underline");
    assertThat(style(".chord.unsure .symbol", "fontStyle")).isEqualTo("italic");
    assertThat(style(".chord.same .symbol", "fontWeight"))
        .isNotEqualTo(style(".chord .symbol", "fontWeight"));
    assertThat(style(".contour.bass path", "strokeWidth"))
        .isNotEqualTo(style(".contour.tune path", "strokeWidth"));
  }

  /** As the page's rules draw such a thing, whether or not this song has one. */
  private String style(String selector, String property) {
    return String.valueOf(
        browser.run(
            """
            const names = arguments[0].split(' ');
            const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
            document.querySelector('.stack').append(svg);
            let at = svg;
            for (const name of names) {
              const [tag, ...classes] = name.split('.');
              const one = document.createElementNS('http://www.w3.org/2000/svg', tag || (name === names.at(-1) ? 'text' : 'g'));
              one.setAttribute('class', classes.join(' '));
              at.append(one);
              at = one;
            }
            const style = getComputedStyle(at)[arguments[1]];
            svg.remove();
            return style;
            """,
            selector,
            property));
  }

  private static String press(String words) {
    return "[...document.querySelectorAll('button')].find(b => b.textContent === '%s').click()"
        .formatted(words);
  }

  /** A thing before and after something is done. */
  private void differ(String selector, String act) throws Exception {
    browser.run(
        "window.looked = document.querySelector(arguments[0]); looked.id = 'looked'", selector);
    BufferedImage before = browser.drawn("#looked");
    browser.await(act);
    browser.await(
        "await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))");
    BufferedImage after = browser.drawn("#looked");
    browser.run("window.looked.removeAttribute('id')");
    assertThat(pointsThatDiffer(before, after)).as(act).isGreaterThan(POINTS);
  }

  private static int pointsThatDiffer(BufferedImage one, BufferedImage other) {
    int points = 0;
    for (int y = 0; y < Math.min(one.getHeight(), other.getHeight()); y++) {
      for (int x = 0; x < Math.min(one.getWidth(), other.getWidth()); x++) {
        double a = luminance(one.getRGB(x, y));
        double b = luminance(other.getRGB(x, y));
        if ((Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05) >= CONTRAST) {
          points++;
        }
      }
    }
    return points;
  }

  /** Relative luminance, as WCAG 2.2 defines it. */
  private static double luminance(int rgb) {
    return 0.2126 * linear(rgb >> 16 & 0xff)
        + 0.7152 * linear(rgb >> 8 & 0xff)
        + 0.0722 * linear(rgb & 0xff);
  }

  private static double linear(int value) {
    double share = value / 255.0;
    return share <= 0.04045 ? share / 12.92 : Math.pow((share + 0.055) / 1.055, 2.4);
  }
}
