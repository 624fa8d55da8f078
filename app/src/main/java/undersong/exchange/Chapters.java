package undersong.exchange;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.time.TimeCode;

/** The form as chapters: plain {@code M:SS text} lines, or WebVTT (W3C) cues. */
public final class Chapters {
  private record Chapter(double startSeconds, double endSeconds, String title) {}

  private Chapters() {}

  /** One line per section, from 0:00; hours are written where there are any. */
  public static String lines(Reading reading) {
    StringBuilder text = new StringBuilder();
    for (Chapter chapter : chapters(reading)) {
      text.append(TimeCode.minutes(chapter.startSeconds()))
          .append(' ')
          .append(chapter.title())
          .append('\n');
    }
    return text.toString();
  }

  /** A WebVTT file with one cue per section. */
  public static String webVtt(Reading reading) {
    StringBuilder text = new StringBuilder("WEBVTT\n");
    int number = 1;
    for (Chapter chapter : chapters(reading)) {
      text.append(
          "\n%d\n%s --> %s\n%s\n"
              .formatted(
                  number++,
                  TimeCode.webVtt(chapter.startSeconds()),
                  TimeCode.webVtt(chapter.endSeconds()),
                  escaped(chapter.title())));
    }
    return text.toString();
  }

  private static List<Chapter> chapters(Reading reading) {
    List<String> titles = SectionNames.titles(reading);
    List<Section> sections = reading.find(Facet.FORM).map(Form::sections).orElse(List.of());
    List<Chapter> chapters = new ArrayList<>();
    for (int i = 0; i < sections.size(); i++) {
      var span = sections.get(i).span();
      // Chapters begin at 0:00, whatever silence comes before the music.
      double start = i == 0 ? 0 : span.startSeconds();
      chapters.add(new Chapter(start, span.endSeconds(), titles.get(i)));
    }
    return chapters;
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
