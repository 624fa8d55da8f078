package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.browser.PageBrowser;
import undersong.lesson.Lesson;
import undersong.lesson.drill.Drill;
import undersong.lesson.drill.DrillKind;
import undersong.notation.NotationSettings;
import undersong.study.StandInStudy;
import undersong.study.Study;

/** A page of exercises opened from a file, as a student opens it, without a desk. */
class DrillPageTest {
  private static final Set<DrillKind> KINDS = EnumSet.of(DrillKind.RESTING_TONE, DrillKind.QUALITY);

  @TempDir Path folder;

  @Test
  void exercisesAreAnsweredAndCountedFromAFile() throws Exception {
    assumeTrue(
        PageBrowser.isThere()
            && getClass().getResource("/undersong/desk/page/lesson/lesson.js") != null,
        "no browser here, or the page was not built (needs Node 20)");
    try (Study study = StandInStudy.in(folder);
        PageBrowser browser = PageBrowser.open()) {
      long song = study.study(TestDesk.song(folder, "low tide.wav")).song().id();
      Lesson lesson = study.lessons().draft(song, 3, NotationSettings.DEFAULTS);
      List<Drill> drills = study.lessons().drills(lesson, KINDS, 3, 7);
      Path page = folder.resolve("exercises.html");
      Files.writeString(page, study.lessons().drillPage(lesson, drills));
      browser.go(page.toUri());
      browser.see("#drills .drill-prompt");
      assertThat(browser.texts("#drills summary")).contains("Your voice");
      assertThat(browser.texts("figcaption")).as("no curve without places on it").isEmpty();
      Drill first = choose(browser, drills);
      assertThat(browser.text(".drill-prompt")).isEqualTo("1 of 3. " + first.prompt());
      assertThat(browser.texts(".choices button")).isEqualTo(first.choices());
      press(browser, ".choices button", first.answer());
      assertThat(browser.text(".drill-answer")).isEqualTo("Yes. " + first.explanation());
      browser.picture("exercises");
      next(browser);
      Drill second = drills.get(drills.indexOf(first) + 1);
      press(browser, ".choices button", 1 - second.answer());
      assertThat(browser.text(".drill-answer"))
          .startsWith("No, " + second.choices().get(second.answer()) + ".");
      assertThat(browser.text(".tally")).contains(first.kind().title() + " 1 of 2");
      browser.go(page.toUri());
      browser.see("#drills .drill-prompt");
      assertThat(browser.text(".tally")).as("kept").contains(first.kind().title() + " 1 of 2");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  private static Drill choose(PageBrowser browser, List<Drill> drills) {
    browser.run(
        "const list = document.querySelector('#drills select'); list.value = 'quality';"
            + " list.dispatchEvent(new Event('change'));");
    return drills.stream()
        .filter(drill -> drill.kind() == DrillKind.QUALITY && drill.level() == 1)
        .findFirst()
        .orElseThrow();
  }

  private static void press(PageBrowser browser, String buttons, int which) {
    browser.run("document.querySelectorAll(arguments[0])[arguments[1]].click()", buttons, which);
  }

  private static void next(PageBrowser browser) {
    browser.run(
        "[...document.querySelectorAll('#drills button')].find(b => b.textContent ==="
            + " 'Next').click()");
  }
}
