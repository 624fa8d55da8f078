package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.browser.PageBrowser;
import undersong.lesson.Lesson;
import undersong.lesson.drill.Drill;
import undersong.lesson.drill.DrillKind;
import undersong.lesson.drill.Tone;
import undersong.notation.NotationSettings;
import undersong.render.WavWriter;
import undersong.study.StandInStudy;
import undersong.study.Study;

/**
 * Sung answers as the browser's microphone hears them. The singer is made here: four notes of a
 * scale over and over, each with overtones and a vibrato of 20 cents.
 */
class SungDrillTest {
  private static final int RATE = 44_100;

  /** C, D, E, F below middle C, a second each. */
  private static final int[] SCALE_MIDI = {48, 50, 52, 53};

  private static final double VIBRATO_CENTS = 20;
  private static final double VIBRATO_HZ = 5.5;
  private static final int OVERTONES = 8;

  @TempDir Path folder;

  @Test
  void aSungNoteIsRightAndOneThatWasNotSungIsNot() throws Exception {
    assumeTrue(
        PageBrowser.isThere()
            && getClass().getResource("/undersong/desk/page/lesson/lesson.js") != null,
        "no browser here, or the page was not built (needs Node 20)");
    Path singer = folder.resolve("singer.wav");
    sing(singer, 0);
    try (Study study = StandInStudy.in(folder);
        PageBrowser browser = PageBrowser.hearing(singer)) {
      Path page = page(study, drill(4, "E rests."), drill(8, "A flat rests."));
      browser.go(page.toUri());
      assertThat(judged(browser)).startsWith("Yes: ").endsWith("E rests.");
      browser.run(
          "[...document.querySelectorAll('#drills button')].find(b => b.textContent ==="
              + " 'Next').click()");
      assertThat(judged(browser)).startsWith("Not yet: ").endsWith("A flat rests.");
      assertThat(browser.text(".tally")).contains("1 of 2");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  /** 80 cents above E is no E for a tolerance of 50 cents. */
  @Test
  void outOfTuneIsNotRight() throws Exception {
    assumeTrue(
        PageBrowser.isThere()
            && getClass().getResource("/undersong/desk/page/lesson/lesson.js") != null,
        "no browser here, or the page was not built (needs Node 20)");
    Path singer = folder.resolve("sharp.wav");
    sing(singer, 80);
    try (Study study = StandInStudy.in(folder);
        PageBrowser browser = PageBrowser.hearing(singer)) {
      browser.go(page(study, drill(4, "E rests.")).toUri());
      assertThat(judged(browser)).startsWith("Not yet: ");
    }
  }

  private static String judged(PageBrowser browser) {
    browser.run("document.querySelector('.drill-answer').textContent = ''");
    // A click as a person makes it: no page may listen or sound without one.
    browser.see("#drills .deeds button:nth-of-type(2)").click();
    browser.until(
        "the answer is judged",
        "/^(Yes|Not yet|Nothing|The microphone|Your range)/"
            + ".test(document.querySelector('.drill-answer').textContent)");
    return browser.text(".drill-answer");
  }

  private Path page(Study study, Drill... drills) throws IOException {
    long song = study.study(TestDesk.song(folder, "low tide.wav")).song().id();
    Lesson lesson = study.lessons().draft(song, 3, NotationSettings.DEFAULTS);
    Path page = folder.resolve("sung.html");
    Files.writeString(page, study.lessons().drillPage(lesson, List.of(drills)));
    return page;
  }

  private static Drill drill(int pitchClass, String explanation) {
    return new Drill(
        DrillKind.RESTING_TONE,
        1,
        "Sing the resting tone.",
        List.of(new Tone("melody", 0, 1, 60, 0, 1)),
        List.of(),
        0,
        OptionalInt.of(pitchClass),
        explanation);
  }

  private static void sing(Path file, double cents) throws IOException {
    int frames = SCALE_MIDI.length * RATE;
    try (WavWriter writer = new WavWriter(file, frames)) {
      double phase = 0;
      for (int n = 0; n < frames; n++) {
        double vibrato = VIBRATO_CENTS * Math.sin(2 * Math.PI * VIBRATO_HZ * n / RATE);
        double midi = SCALE_MIDI[n / RATE] + (cents + vibrato) / 100;
        phase += 440 * Math.pow(2, (midi - 69) / 12) / RATE;
        double sample = 0;
        for (int k = 1; k <= OVERTONES; k++) {
          sample += Math.sin(2 * Math.PI * k * phase) / k;
        }
        writer.write((float) (0.2 * sample), (float) (0.2 * sample));
      }
    }
  }
}
