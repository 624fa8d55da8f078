package undersong.trend;

import java.util.List;
import java.util.Locale;
import undersong.trend.Trend.Group;

/**
 * A trend as a picture: a dot for each group's share, its interval as a line; hollow dots where too
 * few songs stand behind it. Readable in black and white. SVG 1.1.
 */
public final class TrendPicture {
  private static final int STEP = 64;
  private static final int LEFT = 56;
  private static final int TOP = 44;
  private static final int HEIGHT = 220;

  private TrendPicture() {}

  public static String svg(Trend trend) {
    List<Group> groups = trend.groups();
    int width = LEFT + STEP * Math.max(4, groups.size()) + 16;
    StringBuilder svg = new StringBuilder();
    line(
        svg,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%d\" height=\"%d\" viewBox=\"0 0 %d %d\""
            + " role=\"img\" font-family=\"sans-serif\" font-size=\"12\" fill=\"#222\">",
        width,
        TOP + HEIGHT + 56,
        width,
        TOP + HEIGHT + 56);
    line(svg, "<title>%s</title>", escaped(trend.words() + ". " + trend.said()));
    line(svg, "<rect width=\"100%%\" height=\"100%%\" fill=\"#fff\"/>");
    line(svg, "<text x=\"8\" y=\"20\" font-size=\"14\">%s</text>", escaped(trend.words()));
    for (int percent = 0; percent <= 100; percent += 25) {
      double y = y(percent / 100.0);
      line(
          svg,
          "<line x1=\"%d\" x2=\"%d\" y1=\"%.1f\" y2=\"%.1f\" stroke=\"#ccc\"/>",
          LEFT,
          width - 8,
          y,
          y);
      line(
          svg,
          "<text x=\"%d\" y=\"%.1f\" text-anchor=\"end\">%d %%</text>",
          LEFT - 8,
          y + 4,
          percent);
    }
    for (int i = 0; i < groups.size(); i++) {
      group(svg, groups.get(i), LEFT + STEP / 2 + i * STEP);
    }
    return svg.append("</svg>\n").toString();
  }

  private static void group(StringBuilder svg, Group group, int x) {
    Share share = group.share();
    line(
        svg,
        "<line x1=\"%d\" x2=\"%d\" y1=\"%.1f\" y2=\"%.1f\" stroke=\"#222\"/>",
        x,
        x,
        y(share.high()),
        y(share.low()));
    line(
        svg,
        "<circle cx=\"%d\" cy=\"%.1f\" r=\"4\" stroke=\"#222\" fill=\"%s\"/>",
        x,
        y(share.value()),
        group.isTellable() ? "#222" : "#fff");
    String name = group.name().length() > 9 ? group.name().substring(0, 8) + "…" : group.name();
    line(
        svg,
        "<text x=\"%d\" y=\"%d\" text-anchor=\"middle\">%s</text>",
        x,
        TOP + HEIGHT + 20,
        escaped(name));
    line(
        svg,
        "<text x=\"%d\" y=\"%d\" text-anchor=\"middle\">%d/%d</text>",
        x,
        TOP + HEIGHT + 38,
        share.songs(),
        share.of());
  }

  private static double y(double share) {
    return TOP + HEIGHT * (1 - share);
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }

  private static void line(StringBuilder svg, String format, Object... values) {
    svg.append(String.format(Locale.ROOT, format, values)).append('\n');
  }
}
