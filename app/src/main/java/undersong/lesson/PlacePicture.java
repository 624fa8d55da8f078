package undersong.lesson;

import static undersong.lesson.Svg.WIDTH;
import static undersong.lesson.Svg.line;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.PlacedEvent;
import undersong.reading.Reading;
import undersong.reading.Space;
import undersong.time.Span;
import undersong.time.TimeCode;

/**
 * Where sounds stand between left and right over some bars, left above and right below, within the
 * width the whole mix has: told by place and thickness.
 */
final class PlacePicture {
  private static final int MIDDLE = 62;
  private static final int HALF = 44;
  private static final int LEFT_EDGE = 52;

  /** A sound that is more likely not there is not drawn. */
  private static final double LEAST_PROBABILITY = 0.5;

  /** Sides this far below the middle are heard as none, sides as loud as it as all there is. */
  private static final double NARROWEST_DB = -24;

  private final List<Bar> bars;
  private final double from;
  private final double scale;
  private final Space space;
  private final List<Bar> songBars;

  private PlacePicture(List<Bar> bars, Reading reading, Space space) {
    this.bars = bars;
    this.from = bars.get(0).span().startSeconds();
    double to = bars.get(bars.size() - 1).span().endSeconds();
    this.scale = (WIDTH - LEFT_EDGE - 6) / (to - from);
    this.space = space;
    this.songBars = reading.get(Facet.METER).bars();
  }

  /** Empty where nothing has a place of its own there. */
  static String over(Span span, Reading reading) {
    Space space = reading.find(Facet.SPACE).orElse(Space.NONE);
    List<Bar> bars =
        reading.get(Facet.METER).bars().stream().filter(bar -> bar.span().overlaps(span)).toList();
    if (bars.isEmpty()) {
      return "";
    }
    PlacePicture picture = new PlacePicture(bars, reading, space);
    List<PlacedEvent> events = picture.events();
    return events.isEmpty() && space.bars().isEmpty() ? "" : picture.draw(events);
  }

  private List<PlacedEvent> events() {
    Span shown = new Span(from, bars.get(bars.size() - 1).span().endSeconds());
    return space.events().stream()
        .filter(event -> event.probability() >= LEAST_PROBABILITY && shown.overlaps(event.span()))
        .toList();
  }

  private String draw(List<PlacedEvent> events) {
    StringBuilder shapes = new StringBuilder(band());
    int every = (int) Math.ceil(bars.size() / 24.0);
    for (int i = 0; i < bars.size(); i++) {
      double x = x(bars.get(i).span().startSeconds());
      shapes.append(line("<path d=\"M%.1f %d V%d\"/>", x, MIDDLE - HALF, MIDDLE + HALF));
      if (i % every == 0) {
        shapes.append(
            line(
                "<text x=\"%.1f\" y=\"%d\">%d</text>",
                x + 2, MIDDLE + HALF + 14, bars.get(i).number()));
      }
    }
    shapes.append(line("<path d=\"M%d %d H%d\"/>", LEFT_EDGE, MIDDLE, WIDTH - 6));
    shapes.append(
        line(
            "<text x=\"4\" y=\"%d\">left</text><text x=\"4\" y=\"%d\">middle</text><text x=\"4\""
                + " y=\"%d\">right</text>",
            MIDDLE - HALF + 4, MIDDLE + 4, MIDDLE + HALF + 4));
    events.forEach(event -> shapes.append(mark(event)));
    return Svg.picture("places", MIDDLE + HALF + 18, words(events), shapes.toString());
  }

  private String mark(PlacedEvent event) {
    double y = MIDDLE + HALF * event.placement();
    double start = x(Math.max(from, event.span().startSeconds()));
    double end = Math.max(start + 2, Math.min(WIDTH - 6, x(event.span().endSeconds())));
    return switch (event.source()) {
      case LEAD -> line("<path class=\"lead\" d=\"M%.1f %.1f H%.1f\"/>", start, y, end);
      case LINE -> line("<path class=\"sound\" d=\"M%.1f %.1f H%.1f\"/>", start, y, end);
      case STRUCK -> line("<path class=\"sound\" d=\"M%.1f %.1f v7\"/>", start, y - 3.5);
    };
  }

  /** How wide each bar is, as a band about the middle. */
  private String band() {
    StringBuilder path = new StringBuilder();
    StringBuilder back = new StringBuilder();
    for (int i = 0; i < songBars.size() && i < space.bars().size(); i++) {
      Bar bar = songBars.get(i);
      if (bars.contains(bar)) {
        double sides = space.bars().get(i).sideToMidDb();
        double half = HALF * Math.max(0, Math.min(1, 1 - sides / NARROWEST_DB));
        double left = x(bar.span().startSeconds());
        double right = x(bar.span().endSeconds());
        path.append(
            line("%s%.1f %.1f H%.1f", path.length() == 0 ? "M" : "L", left, MIDDLE - half, right));
        back.insert(0, line("L%.1f %.1f H%.1f ", right, MIDDLE + half, left));
      }
    }
    return path.length() == 0 ? "" : "<path class=\"band\" d=\"" + path + back + "z\"/>";
  }

  private String words(List<PlacedEvent> events) {
    List<String> words = new ArrayList<>();
    for (PlacedEvent event : events) {
      String side =
          event.placement() < -0.15 ? "left" : event.placement() > 0.15 ? "right" : "the middle";
      String word = event.source().words() + " " + side;
      if (words.isEmpty() || !words.get(words.size() - 1).endsWith(word)) {
        words.add(TimeCode.minutes(event.span().startSeconds()) + " " + word);
      }
    }
    return "Placement from left to right, bars %d to %d: %s."
        .formatted(
            bars.get(0).number(),
            bars.get(bars.size() - 1).number(),
            words.isEmpty() ? "width alone" : String.join("; ", words.stream().limit(40).toList()));
  }

  private double x(double seconds) {
    return LEFT_EDGE + (seconds - from) * scale;
  }
}
