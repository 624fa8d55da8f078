package undersong.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Reading;
import undersong.reading.Section;

/** The form as chapters: plain {@code M:SS text} lines, or WebVTT (W3C) cues. */
public final class Chapters {
  private record Chapter(double startSeconds, double endSeconds, String title) {}

  private Chapters() {}

  /** One line per section, from 0:00; hours are written where there are any. */
  public static String lines(Reading reading) {
    StringBuilder text = new StringBuilder();
    for (Chapter chapter : chapters(reading)) {
      long seconds = (long) Math.floor(chapter.startSeconds());
      String minutesAndSeconds =
          seconds < 3600
              ? "%d:%02d".formatted(seconds / 60, seconds % 60)
              : "%d:%02d:%02d".formatted(seconds / 3600, seconds / 60 % 60, seconds % 60);
      text.append(minutesAndSeconds).append(' ').append(chapter.title()).append('\n');
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
                  timestamp(chapter.startSeconds()),
                  timestamp(chapter.endSeconds()),
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

  private static String timestamp(double seconds) {
    long milliseconds = Math.round(seconds * 1000);
    return String.format(
        Locale.ROOT,
        "%02d:%02d:%02d.%03d",
        milliseconds / 3_600_000,
        milliseconds / 60_000 % 60,
        milliseconds / 1000 % 60,
        milliseconds % 1000);
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
