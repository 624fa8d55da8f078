package undersong.lesson;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.notation.NotationSettings;
import undersong.technique.BarRange;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.Sentence;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.time.Span;

class LessonTest {
  private static final Texts TEXTS = Texts.in(Locale.ENGLISH);

  @Test
  void comesBackFromJsonAsItWas() {
    Lesson lesson = lesson(item("A *heading* & more"));
    assertThat(LessonJson.read(LessonJson.text(lesson), 7)).isEqualTo(lesson);
  }

  @Test
  void wrongSettingsAreNamed() {
    String text = LessonJson.text(lesson(item("a"))).replace("concert", "kazoo");
    assertThatThrownBy(() -> LessonJson.read(text, 7))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("instrument \"kazoo\" must be one of");
    assertThatThrownBy(() -> LessonJson.read("{", 7)).hasMessageContaining("must be JSON");
  }

  @Test
  void limitsAreTold() {
    assertThatThrownBy(() -> item(" ")).hasMessageContaining("1 to 200");
    assertThatThrownBy(
            () ->
                new LessonItem(
                    Optional.empty(),
                    new Span(0, 1),
                    "long",
                    "",
                    Optional.of(new BarRange(1, 17)),
                    false,
                    ""))
        .hasMessageContaining("17 bars");
  }

  @Test
  void theReadingMayChangeTheWordsMayNot() {
    Finding lift = finding(10, "section C");
    LessonItem item = LessonPlan.item(lift, TEXTS).withWords("Mine.");
    Lesson lesson = lesson(item);

    assertThat(LessonChange.of(lesson, List.of(lift), TEXTS)).isEmpty();
    assertThat(LessonChange.of(lesson, List.of(finding(10, "section D")), TEXTS))
        .singleElement()
        .satisfies(
            change -> {
              assertThat(change.before()).contains("section C");
              assertThat(change.now().orElseThrow()).contains("section D");
            });
    assertThat(LessonChange.of(lesson, List.of(finding(90, "section C")), TEXTS))
        .singleElement()
        .satisfies(change -> assertThat(change.now()).isEmpty());
    assertThat(lesson.items().get(0).words()).isEqualTo("Mine.");
  }

  @Test
  void theTeachersMarkupIsShownNotObeyed() {
    String html = Markup.html("**loud** <script>alert(1)</script> [x](javascript:alert(2))");
    assertThat(html).contains("<strong>loud</strong>").contains("&lt;script&gt;");
    assertThat(html).doesNotContain("<script").doesNotContain("javascript:");
  }

  /**
   * Line forms as video pages take them: {@code M:SS title}, rising, from 0:00; common practice.
   */
  @Test
  void chaptersBeginAtZeroAndRise() {
    Lesson lesson = lesson(at(75, "Second"), at(12, "First"), at(12.4, "Same second"));
    assertThat(RunningOrder.chapters(lesson))
        .isEqualTo("0:00 A lesson\n0:12 First; Same second\n1:15 Second\n");
    assertThat(RunningOrder.print(lesson)).contains(" 1  1:15-1:17  Second");
  }

  /** W3C WebVTT: header, blank line, cues whose text holds no markup of its own. */
  @Test
  void cuesAreWebVtt() {
    String text = RunningOrder.webVtt(lesson(at(75, "a --> <b>")));
    assertThat(text)
        .isEqualTo(
            """
            WEBVTT

            1
            00:00:00.000 --> 00:01:15.000
            A lesson

            2
            00:01:15.000 --> 00:01:17.000
            a --&gt; &lt;b&gt;
            """);
  }

  private static Lesson lesson(LessonItem... items) {
    return new Lesson(7, "A lesson", 3, NotationSettings.DEFAULTS, 1, List.of(items));
  }

  private static LessonItem at(double seconds, String heading) {
    return new LessonItem(
        Optional.empty(), new Span(seconds, seconds + 2), heading, "", Optional.empty(), false, "");
  }

  private static LessonItem item(String heading) {
    return new LessonItem(
        Optional.of(Technique.KEY_LIFT),
        new Span(1, 2),
        heading,
        "# Words\nof *mine*",
        Optional.of(new BarRange(3, 6)),
        true,
        "As told.");
  }

  private static Finding finding(double start, String where) {
    Span span = new Span(start, start + 4);
    return new Finding(
        Technique.SUB_BASS_ENTRY,
        span,
        Optional.of(new BarRange(3, 6)),
        0.9,
        "C",
        Sentence.of("sub-bass-entry.summary", where, 12.0),
        List.of(new Evidence.Heard(span, Sentence.of("sub-bass-entry.hear"))));
  }
}
