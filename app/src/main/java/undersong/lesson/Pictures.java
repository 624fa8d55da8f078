package undersong.lesson;

import static undersong.lesson.Svg.WIDTH;
import static undersong.lesson.Svg.line;

import java.util.List;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.HarmonyEvent;
import undersong.reading.Reading;
import undersong.technique.Arc;
import undersong.time.Span;
import undersong.time.TimeCode;

/**
 * Small pictures as SVG, in the colour of the text around them: told by place and length, never by
 * colour. Each carries its content in words for those who do not see it.
 */
final class Pictures {
  private Pictures() {}

  /** How high each section stands against the song's middle, with the items' numbers above. */
  static String energy(Arc arc, Reading reading, List<LessonItem> items) {
    if (arc.stages().isEmpty()) {
      return "";
    }
    double least = arc.stages().stream().mapToDouble(Arc.Stage::height).min().orElse(0);
    double most = arc.stages().stream().mapToDouble(Arc.Stage::height).max().orElse(0);
    double range = Math.max(1, most - least);
    StringBuilder words = new StringBuilder("Energy by section, lowest 0, highest 1: ");
    StringBuilder shapes = new StringBuilder();
    double scale = WIDTH / reading.durationSeconds();
    for (Arc.Stage stage : arc.stages()) {
      Span span = stage.section().span();
      double share = (stage.height() - least) / range;
      double height = 8 + 62 * share;
      double x = span.startSeconds() * scale;
      double width = Math.max(1, span.lengthSeconds() * scale - 2);
      shapes.append(
          line(
              "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>",
              x, 100 - height, width, height));
      String name = stage.section().section().letter();
      shapes.append(line("<text x=\"%.1f\" y=\"114\">%s</text>", x + 2, Markup.escaped(name)));
      words.append(line("%s from %s %.1f; ", name, TimeCode.minutes(span.startSeconds()), share));
    }
    for (int i = 0; i < items.size(); i++) {
      double x = items.get(i).span().startSeconds() * scale;
      int row = i % 2;
      shapes.append(
          line(
              "<path d=\"M%.1f %d V100\"/><text x=\"%.1f\" y=\"%d\">%d</text>",
              x, 14 + 11 * row, x + 2, 12 + 11 * row, i + 1));
    }
    return Svg.picture("energy", 120, words.toString(), shapes.toString());
  }

  /** When chords arrive against the bar lines they belong to, over some bars. */
  static String arrivals(Reading reading, Span span) {
    List<Bar> bars =
        reading.get(Facet.METER).bars().stream().filter(bar -> bar.span().overlaps(span)).toList();
    List<HarmonyEvent> events =
        reading.get(Facet.HARMONY).events().stream()
            .filter(event -> event.numeral().isPresent())
            .filter(event -> span.contains(event.span().startSeconds()))
            .toList();
    if (bars.isEmpty() || events.isEmpty()) {
      return "";
    }
    double from = Math.min(span.startSeconds(), bars.get(0).span().startSeconds());
    double to = bars.get(bars.size() - 1).span().endSeconds();
    double scale = (WIDTH - 20) / (to - from);
    StringBuilder shapes = new StringBuilder();
    for (Bar bar : bars) {
      double x = 10 + (bar.span().startSeconds() - from) * scale;
      shapes.append(
          line(
              "<path d=\"M%.1f 18 V62\"/><text x=\"%.1f\" y=\"78\">%d</text>", x, x, bar.number()));
    }
    StringBuilder words = new StringBuilder("Chords against the bar lines: ");
    for (HarmonyEvent event : events) {
      double x = 10 + (event.span().startSeconds() - from) * scale;
      shapes.append(line("<path class=\"chord\" d=\"M%.1f 30 l7 10 l-7 10 z\"/>", x));
      words.append(
          line(
              "%s %.2f beats %s; ",
              TimeCode.minutes(event.span().startSeconds()),
              Math.abs(event.arrivalBeats()),
              event.arrivalBeats() < 0 ? "early" : event.arrivalBeats() > 0 ? "late" : "on time"));
    }
    return Svg.picture("arrivals", 84, words.toString(), shapes.toString());
  }
}
