package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.browser.PageBrowser;
import undersong.render.WavWriter;
import undersong.study.StandInStudy;

/**
 * The playhead against what sounds: the recording is a tone whose pitch rises evenly, so that the
 * pitch heard at the end of the page's audio graph tells the place that is sounding.
 */
class PlayheadInBrowserTest {
  private static final double FIRST_HERTZ = 300;
  private static final double HERTZ_PER_SECOND = 100;
  private static final double AIM_SECONDS = 0.02;

  /** A bar of the made-up reading. */
  private static final double LOOP_SECONDS = 2;

  /**
   * Listens in where the page's sound leaves for the loudspeaker. The middle of the last 4096
   * samples sounded so long before the time to which the graph has come; the loudspeaker is behind
   * the graph by the time that the browser tells.
   */
  private static final String TAP =
      """
      const connect = AudioNode.prototype.connect;
      AudioNode.prototype.connect = function (to, ...more) {
        if (to instanceof AudioDestinationNode && this.context instanceof AudioContext) {
          window.tap = new AnalyserNode(this.context, {fftSize: 4096});
          connect.call(this, window.tap);
        }
        return connect.call(this, to, ...more);
      };
      """;

  @TempDir Path folder;
  private TestDesk desk;
  private PageBrowser browser;

  @BeforeEach
  void open() throws Exception {
    assumeTrue(PageBrowser.isThere(), "no Chromium with its driver, or no page in this build");
    desk = new TestDesk(folder, StandInStudy.in(folder));
    long song = desk.study.study(rising(folder.resolve("rising.wav"))).song().id();
    browser = PageBrowser.open();
    browser.onEveryPage(TAP);
    browser.go(desk.uri("/#/song/" + song));
    browser.see(".cell");
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

  private static Path rising(Path file) throws IOException {
    int frames = (int) (TestDesk.SONG_SECONDS * 44_100);
    try (WavWriter writer = new WavWriter(file, frames)) {
      for (int n = 0; n < frames; n++) {
        double t = n / 44_100.0;
        float sample =
            0.5f * (float) Math.sin(2 * Math.PI * (FIRST_HERTZ * t + HERTZ_PER_SECOND * t * t / 2));
        writer.write(sample, sample);
      }
    }
    return file;
  }

  /** Seconds by which the drawn playhead is ahead of what sounds, at some moments. */
  private double[] ahead(double rate, int moments) {
    Object measured =
        browser.await(
            """
            const [rate, count, first, slope, duration] = arguments_;
            const strip = document.querySelector('.strip');
            const head = strip.querySelector('.playhead');
            const samples = new Float32Array(4096);
            const lags = [];
            while (lags.length < count) {
              await new Promise(done => setTimeout(done, 150));
              await new Promise(done => requestAnimationFrame(done));
              const drawn = new DOMMatrix(getComputedStyle(head).transform).e / strip.querySelector('svg').clientWidth * duration;
              const now = performance.now();
              window.tap.getFloatTimeDomainData(samples);
              const graph = window.tap.context.currentTime;
              const stamp = window.tap.context.getOutputTimestamp();
              const behind = graph - (stamp.contextTime + (now - stamp.performanceTime) / 1000);
              const rises = [];
              for (let i = 1; i < samples.length; i++) {
                if (samples[i - 1] < 0 && samples[i] >= 0) rises.push(i - samples[i] / (samples[i] - samples[i - 1]));
              }
              if (rises.length < 10) continue;
              const hertz = (rises.length - 1) * 44100 / (rises[rises.length - 1] - rises[0]);
              const middle = (rises[0] + rises[rises.length - 1]) / 2;
              const place = (hertz - first) / slope;
              const sounding = place + rate * ((4096 - middle) / 44100 - behind);
              lags.push(drawn - sounding);
            }
            return lags;
            """,
            rate,
            moments,
            FIRST_HERTZ,
            HERTZ_PER_SECOND,
            TestDesk.SONG_SECONDS);
    return ((List<?>) measured).stream().mapToDouble(one -> ((Number) one).doubleValue()).toArray();
  }

  private static double median(double[] values) {
    double[] sorted = DoubleStream.of(values).sorted().toArray();
    return sorted[sorted.length / 2];
  }

  /** Of many moments, as a busy machine may draw a single frame late. */
  @ParameterizedTest
  @CsvSource({"1, q, 0", "0.5, q, 10", "1.4, w, 8"})
  void isDrawnWithinTwentyMillisecondsOfWhatSounds(double rate, String key, int presses) {
    play(key, presses);
    browser.until("it sounds", "window.tap && window.tap.context.currentTime > 1");
    assertThat(Math.abs(median(ahead(rate, 15)))).isLessThan(AIM_SECONDS);
  }

  /** One bar of two seconds, many times round; where it goes round two places sound in one look. */
  @ParameterizedTest
  @CsvSource({"1, q, 0", "0.5, q, 10", "1.4, w, 8"})
  void isDrawnWhereItSoundsInALoop(double rate, String key, int presses) {
    browser.run("document.querySelectorAll('.cell')[3].focus()");
    browser.press("a");
    play(key, presses);
    browser.until("it went round", "window.tap && window.tap.context.currentTime > 5");
    double[] round =
        DoubleStream.of(ahead(rate, 25))
            .map(lag -> lag - LOOP_SECONDS * Math.round(lag / LOOP_SECONDS))
            .toArray();
    assertThat(Math.abs(median(round))).isLessThan(AIM_SECONDS);
    double within = DoubleStream.of(round).filter(lag -> Math.abs(lag) < 0.1).count();
    assertThat(within / round.length).as("share of moments that agree at all").isGreaterThan(0.7);
  }

  private void play(String key, int presses) {
    browser.run("document.activeElement.blur()");
    for (int i = 0; i < presses; i++) {
      browser.press(key);
    }
    browser.press(" ");
  }
}
