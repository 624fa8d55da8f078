package undersong.lesson;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Optional;
import undersong.lesson.drill.Drill;
import undersong.lesson.drill.DrillJson;
import undersong.notation.Notator;
import undersong.notation.WrittenScore;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.technique.Arc;
import undersong.technique.Finding;
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
    LessonItemHtml items =
        new LessonItemHtml(lesson, material.reading(), material.findings(), texts);
    for (int i = 0; i < lesson.items().size(); i++) {
      items.add(html, i);
    }
    LessonFoot foot = new LessonFoot(lesson, material.excerpts());
    foot.order(html);
    if (!material.drills().isEmpty()) {
      html.append(
          "<section>\n<h2>Exercises for the ear</h2>\n<div id=\"drills\"></div>\n</section>\n");
    }
    foot.cautions(html);
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
    html.append(
        Svg.figure(
            energy,
            "Energy by section (loudness, density, register, width); numbers show where the parts"
                + " of this lesson stand."));
    html.append("</header>\n");
  }

  private ObjectNode data() {
    ObjectNode data = JSON.objectNode();
    data.put("duration", material.reading().durationSeconds());
    data.put("levels", material.levels());
    data.put("level", lesson.level());
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
