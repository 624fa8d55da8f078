package undersong.lesson;

import static undersong.lesson.Svg.figure;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import undersong.reading.Reading;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.time.TimeCode;

/** One thing a lesson speaks of, on its page: words, pictures, and a place for staff and sound. */
final class LessonItemHtml {
  /** Techniques that are heard between left and right. */
  private static final Set<Technique> LEFT_AND_RIGHT =
      EnumSet.of(
          Technique.ALTERNATING_PAN,
          Technique.WIDE_DOUBLE,
          Technique.WIDTH_CHANGE,
          Technique.RESUNG_ECHO,
          Technique.VOCAL_STACK);

  private static final String ARRIVALS = "Flags: where chords arrive. Lines: bar lines.";
  private static final String PLACES =
      "From left (above) to right (below). Thick: the lead; thin: other pitched sounds; upright:"
          + " struck sounds. Band: how wide each bar is.";
  private static final String STACK =
      "The same bars in every copy: chords where they arrive, tune, bass. What differs from the"
          + " copy before stands in full ink; circles are notes that are gone.";

  private final Lesson lesson;
  private final Reading reading;
  private final List<Finding> findings;
  private final Texts texts;

  LessonItemHtml(Lesson lesson, Reading reading, List<Finding> findings, Texts texts) {
    this.lesson = lesson;
    this.reading = reading;
    this.findings = findings;
    this.texts = texts;
  }

  void add(StringBuilder html, int place) {
    LessonItem item = lesson.items().get(place);
    Optional<Finding> finding = LessonPlan.now(item, findings);
    html.append("<section class=\"item\" id=\"item-")
        .append(place + 1)
        .append("\">\n<h2>")
        .append(place + 1)
        .append(". ")
        .append(Markup.escaped(item.heading()))
        .append("</h2>\n<p class=\"where\">")
        .append(where(item))
        .append("</p>\n");
    if (!item.words().isBlank()) {
      html.append("<div class=\"words\">").append(Markup.html(item.words())).append("</div>\n");
    }
    if (!item.asTold().isEmpty()) {
      paragraph(html, "told", "", item.asTold());
    }
    item.technique()
        .ifPresent(
            technique -> {
              paragraph(html, "listen", "Listen for", texts.whatToListenFor(technique));
            });
    html.append("<div class=\"example\" data-item=\"").append(place).append("\"></div>\n");
    pictures(html, item, finding);
    item.technique().ifPresent(technique -> about(html, technique, finding));
    html.append("</section>\n");
  }

  private static void paragraph(StringBuilder html, String kind, String lead, String words) {
    html.append("<p class=\"").append(kind).append("\">");
    if (!lead.isEmpty()) {
      html.append("<b>").append(lead).append("</b> ");
    }
    html.append(Markup.escaped(words)).append("</p>\n");
  }

  private void pictures(StringBuilder html, LessonItem item, Optional<Finding> finding) {
    boolean early = is(item, t -> t == Technique.ANTICIPATED_CHANGES);
    finding
        .filter(one -> early)
        .ifPresent(one -> html.append(figure(Pictures.arrivals(reading, one.span()), ARRIVALS)));
    finding
        .filter(one -> is(item, LEFT_AND_RIGHT::contains))
        .ifPresent(one -> html.append(figure(PlacePicture.over(one.span(), reading), PLACES)));
    item.example()
        .ifPresent(
            bars -> html.append(figure(StackPicture.of(bars, reading, lesson.settings()), STACK)));
  }

  private static boolean is(LessonItem item, Predicate<Technique> kind) {
    return item.technique().filter(kind).isPresent();
  }

  private void about(StringBuilder html, Technique technique, Optional<Finding> finding) {
    html.append("<details><summary>What it is, and why the program thinks so</summary>\n");
    paragraph(html, "definition", "", texts.definition(technique));
    html.append("<ul>\n");
    finding.map(Finding::evidence).orElse(List.of()).stream()
        .limit(12)
        .forEach(
            evidence ->
                html.append("<li>")
                    .append(time(evidence))
                    .append(Markup.escaped(texts.say(evidence)))
                    .append("</li>\n"));
    html.append("</ul>\n");
    finding.ifPresent(
        one ->
            paragraph(
                html, "sure", "", "How sure: " + Math.round(100 * one.probability()) + " %."));
    paragraph(html, "source", "", "Source of the definition: " + texts.source(technique) + ".");
    html.append("</details>\n");
    paragraph(html, "try", "Try it", texts.howToTryIt(technique));
  }

  private static String time(Evidence evidence) {
    if (evidence instanceof Evidence.Heard heard) {
      return TimeCode.minutes(heard.span().startSeconds()) + " ";
    }
    return evidence instanceof Evidence.Read read
        ? TimeCode.minutes(read.span().startSeconds()) + " "
        : "";
  }

  private String where(LessonItem item) {
    List<String> words = new ArrayList<>();
    item.example().ifPresent(bars -> words.add(LessonFoot.bars(bars)));
    words.add(
        TimeCode.minutes(item.span().startSeconds())
            + " to "
            + TimeCode.minutes(item.span().endSeconds()));
    item.technique().ifPresent(t -> words.add(texts.kind(t.kind()).toLowerCase(Locale.ROOT)));
    return Markup.escaped(String.join(" · ", words));
  }
}
