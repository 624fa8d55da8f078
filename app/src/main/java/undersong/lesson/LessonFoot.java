package undersong.lesson;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import undersong.technique.BarRange;
import undersong.time.TimeCode;

/** What ends a lesson's page: its parts in order of time, and what to mind before sharing it. */
final class LessonFoot {
  private final Lesson lesson;
  private final List<Optional<LessonPage.Excerpt>> excerpts;

  LessonFoot(Lesson lesson, List<Optional<LessonPage.Excerpt>> excerpts) {
    this.lesson = lesson;
    this.excerpts = excerpts;
  }

  void order(StringBuilder html) {
    if (lesson.items().isEmpty()) {
      return;
    }
    html.append("<section id=\"order\">\n<h2>In order of time</h2>\n<ol class=\"order\">\n");
    lesson.items().stream()
        .sorted(Comparator.comparingDouble(item -> item.span().startSeconds()))
        .forEach(
            item ->
                html.append("<li><a href=\"#item-")
                    .append(lesson.items().indexOf(item) + 1)
                    .append("\">")
                    .append(TimeCode.minutes(item.span().startSeconds()))
                    .append(" ")
                    .append(Markup.escaped(item.heading()))
                    .append("</a></li>\n"));
    html.append("</ol>\n</section>\n");
  }

  void cautions(StringBuilder html) {
    html.append("<footer>\n<h2>Before you share this page</h2>\n<p>");
    html.append(
        "A recording and the composition in it are two rights. Staves and plain tones quote the "
            + "composition, even without any sound of the recording. ");
    List<String> quotes = new ArrayList<>();
    for (int i = 0; i < lesson.items().size(); i++) {
      int number = i + 1;
      lesson
          .items()
          .get(i)
          .example()
          .ifPresent(bars -> quotes.add(number + " (" + bars(bars) + ")"));
    }
    html.append(
        quotes.isEmpty()
            ? "No example quotes any bars. "
            : "Examples that quote: " + String.join(", ", quotes) + ". ");
    List<String> carried = new ArrayList<>();
    for (int i = 0; i < excerpts.size(); i++) {
      int number = i + 1;
      excerpts
          .get(i)
          .ifPresent(e -> carried.add("%d (%.0f s)".formatted(number, e.lengthSeconds())));
    }
    html.append(
        carried.isEmpty()
            ? "The page carries nothing of the recording. "
            : "Excerpts of the recording: " + String.join(", ", carried) + ". ");
    html.append(
        "What teaching and quotation allow differs by country; ask someone licensed to advise where"
            + " it matters.</p>\n"
            + "<p>Keep the level moderate, above all on headphones and in loops.</p>\n"
            + "</footer>\n");
  }

  static String bars(BarRange bars) {
    return bars.bars() == 1 ? "bar " + bars.first() : "bars " + bars.first() + " to " + bars.last();
  }
}
