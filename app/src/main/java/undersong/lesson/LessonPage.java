package undersong.lesson;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.lesson.drill.Drill;
import undersong.lesson.drill.DrillJson;
import undersong.notation.Notator;
import undersong.notation.WrittenScore;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Arc;
import undersong.technique.BarRange;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.time.TimeCode;

/**
 * A lesson as one HTML file that needs nothing else: text and pictures stand in it, staves are
 * drawn and tones are made by the script it carries. It holds nothing of the recording but the
 * excerpts the teacher switched on.
 */
public final class LessonPage {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private final Lesson lesson;
  private final Material material;
  private final Texts texts;
  private final Example example;
  private final WrittenScore score;

  /**
   * What a page is made of besides the lesson.
   *
   * @param songTitle of the song
   * @param artist "" where nobody is named
   * @param findings of the reading as it stands
   * @param levels loudness every tenth of a second, a byte each, in Base64, by which a student's
   *     own copy is known again; "" where it is not at hand
   * @param excerpts sound files for items that carry one, by place in the lesson; empty elsewhere
   * @param drills exercises for the ear; none for a page without
   * @param script of the page
   * @param style of the page
   */
  public record Material(
      String songTitle,
      String artist,
      Reading reading,
      List<Finding> findings,
      String levels,
      List<Optional<Excerpt>> excerpts,
      List<Drill> drills,
      String script,
      String style) {}

  /**
   * A stretch of the recording as a file.
   *
   * @param base64 the file
   */
  public record Excerpt(String mediaType, double lengthSeconds, String base64) {
    String url() {
      return "data:" + mediaType + ";base64," + base64;
    }
  }

  private LessonPage(Lesson lesson, Material material, Texts texts) {
    this.lesson = lesson;
    this.material = material;
    this.texts = texts;
    this.score = Notator.write(material.reading(), lesson.settings());
    this.example = new Example(material.reading(), score);
  }

  public static String print(Lesson lesson, Material material, Texts texts) {
    return new LessonPage(lesson, material, texts).page();
  }

  private String page() {
    StringBuilder html = new StringBuilder();
    html.append("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
        .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
        .append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; ")
        .append("script-src 'unsafe-inline'; style-src 'unsafe-inline'; font-src data:; ")
        .append("media-src data: blob:; img-src data:\">\n<title>")
        .append(Markup.escaped(lesson.title()))
        .append("</title>\n<style>\n")
        .append(material.style())
        .append("\n</style>\n</head>\n<body>\n<main>\n");
    head(html);
    for (int i = 0; i < lesson.items().size(); i++) {
      item(html, i);
    }
    running(html);
    if (!material.drills().isEmpty()) {
      html.append(
          "<section>\n<h2>Exercises for the ear</h2>\n<div id=\"drills\"></div>\n</section>\n");
    }
    cautions(html);
    html.append("</main>\n<script type=\"application/json\" id=\"lesson\">")
        .append(script(data().toString()))
        .append("</script>\n<script>\n")
        .append(script(material.script()))
        .append("\n</script>\n</body>\n</html>\n");
    return html.toString();
  }

  /** Inside a script element nothing may look like its end. */
  private static String script(String text) {
    return text.replace("</", "<\\/").replace("<!--", "<\\!--");
  }

  private void head(StringBuilder html) {
    html.append("<header>\n<h1>").append(Markup.escaped(lesson.title())).append("</h1>\n<p>");
    html.append("On ").append(Markup.escaped(material.songTitle()));
    if (!material.artist().isEmpty()) {
      html.append(" · ").append(Markup.escaped(material.artist()));
    }
    html.append(" · ").append(TimeCode.minutes(material.reading().durationSeconds()));
    material
        .reading()
        .get(Facet.KEYS)
        .mainKey()
        .ifPresent(key -> html.append(" · ").append(lesson.settings().instrument().written(key)));
    if (score.bpm() > 0) {
      html.append(" · ").append(Math.round(score.bpm())).append(" bpm");
    }
    html.append("</p>\n");
    String energy = "";
    if (!lesson.items().isEmpty()) { // exercises alone have no place in the song
      html.append("<div id=\"own-copy\"></div>\n");
      energy = Pictures.energy(Arc.of(material.reading()), material.reading(), lesson.items());
    }
    if (!energy.isEmpty()) {
      html.append("<figure>")
          .append(energy)
          .append("<figcaption>Energy by section (loudness, density, register, width); ")
          .append("numbers show where the parts of this lesson stand.</figcaption></figure>\n");
    }
    html.append("</header>\n");
  }

  private void item(StringBuilder html, int place) {
    LessonItem item = lesson.items().get(place);
    Optional<Finding> finding = LessonPlan.now(item, material.findings());
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
    finding.ifPresent(one -> picture(html, item, one));
    html.append("<div class=\"example\" data-item=\"").append(place).append("\"></div>\n");
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

  private void picture(StringBuilder html, LessonItem item, Finding finding) {
    if (item.technique().filter(t -> t == Technique.ANTICIPATED_CHANGES).isPresent()) {
      String picture = Pictures.arrivals(material.reading(), finding.span());
      if (!picture.isEmpty()) {
        html.append("<figure>")
            .append(picture)
            .append(
                "<figcaption>Flags: where chords arrive. Lines: bar"
                    + " lines.</figcaption></figure>\n");
      }
    }
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
    item.example().ifPresent(bars -> words.add(bars(bars)));
    words.add(
        TimeCode.minutes(item.span().startSeconds())
            + " to "
            + TimeCode.minutes(item.span().endSeconds()));
    item.technique()
        .ifPresent(t -> words.add(texts.kind(t.kind()).toLowerCase(java.util.Locale.ROOT)));
    return Markup.escaped(String.join(" · ", words));
  }

  private static String bars(BarRange bars) {
    return bars.bars() == 1 ? "bar " + bars.first() : "bars " + bars.first() + " to " + bars.last();
  }

  private void running(StringBuilder html) {
    if (lesson.items().isEmpty()) {
      return;
    }
    html.append("<section id=\"order\">\n<h2>In order of time</h2>\n<ol class=\"order\">\n");
    lesson.items().stream()
        .sorted(java.util.Comparator.comparingDouble(item -> item.span().startSeconds()))
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

  private void cautions(StringBuilder html) {
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
    for (int i = 0; i < material.excerpts().size(); i++) {
      int number = i + 1;
      material
          .excerpts()
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

  private ObjectNode data() {
    ObjectNode data = JSON.objectNode();
    data.put("duration", material.reading().durationSeconds());
    data.put("levels", material.levels());
    data.set("drills", DrillJson.print(material.drills()));
    ArrayNode items = data.putArray("items");
    for (int i = 0; i < lesson.items().size(); i++) {
      LessonItem item = lesson.items().get(i);
      ObjectNode node = items.addObject();
      node.put("heading", item.heading())
          .put("start", item.span().startSeconds())
          .put("end", item.span().endSeconds());
      Optional<Finding> finding = LessonPlan.now(item, material.findings());
      item.example()
          .filter(bars -> !score.parts().isEmpty())
          .ifPresent(bars -> node.set("example", example.print(bars, finding)));
      if (i < material.excerpts().size()) {
        material.excerpts().get(i).ifPresent(excerpt -> node.put("excerpt", excerpt.url()));
      }
    }
    return data;
  }
}
