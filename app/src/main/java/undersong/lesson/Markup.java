package undersong.lesson;

import org.commonmark.parser.Parser;
import org.commonmark.renderer.html.HtmlRenderer;

/** The teacher's Markdown (CommonMark) as HTML: markup of their own is shown, never obeyed. */
final class Markup {
  private static final Parser PARSER = Parser.builder().build();
  private static final HtmlRenderer RENDERER =
      HtmlRenderer.builder().escapeHtml(true).sanitizeUrls(true).build();

  private Markup() {}

  static String html(String markdown) {
    return RENDERER.render(PARSER.parse(markdown));
  }

  /** Text for between tags and within quoted attributes. */
  static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
