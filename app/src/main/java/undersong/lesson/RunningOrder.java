package undersong.lesson;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.time.TimeCode;

/** What one speaks from: the lesson as lines of text. */
public final class RunningOrder {
  private RunningOrder() {}

  /** Time codes and cue words in the order of telling; the teacher's words follow, indented. */
  public static String print(Lesson lesson) {
    StringBuilder text = new StringBuilder(lesson.title()).append("\n\n");
    int number = 1;
    for (LessonItem item : lesson.items()) {
      text.append(
          "%2d  %s-%s  %s%n"
              .formatted(
                  number++,
                  clock(item.span().startSeconds()),
                  clock(item.span().endSeconds()),
                  item.heading()));
      if (!item.asTold().isEmpty()) {
        text.append("    ").append(item.asTold()).append('\n');
      }
      item.words().lines().forEach(line -> text.append("    > ").append(line).append('\n'));
    }
    return text.toString();
  }

  /**
   * A stretch of the video.
   *
   * @param startSeconds a whole second, as players take chapters
   */
  private record Chapter(long startSeconds, double endSeconds, String title) {}

  /** Chapters of a video that follows the song: {@code M:SS heading}, from 0:00, by time. */
  public static String chapters(Lesson lesson) {
    StringBuilder text = new StringBuilder();
    for (Chapter chapter : chapterList(lesson)) {
      text.append(clock((double) chapter.startSeconds()))
          .append(' ')
          .append(chapter.title())
          .append('\n');
    }
    return text.toString();
  }

  /** The same as WebVTT (W3C), its cues end to end as chapters must be. */
  public static String webVtt(Lesson lesson) {
    StringBuilder text = new StringBuilder("WEBVTT\n");
    int number = 1;
    for (Chapter chapter : chapterList(lesson)) {
      text.append(
          "\n%d\n%s --> %s\n%s\n"
              .formatted(
                  number++,
                  TimeCode.webVtt((double) chapter.startSeconds()),
                  TimeCode.webVtt(chapter.endSeconds()),
                  escaped(chapter.title())));
    }
    return text.toString();
  }

  /** What begins in one second is one chapter; each lasts until the next. */
  private static List<Chapter> chapterList(Lesson lesson) {
    NavigableMap<Long, String> titles = new TreeMap<>();
    double end = 0;
    for (LessonItem item : byTime(lesson)) {
      titles.merge(
          (long) Math.floor(item.span().startSeconds()),
          item.heading(),
          (before, next) -> before + "; " + next);
      end = Math.max(end, item.span().endSeconds());
    }
    titles.putIfAbsent(0L, lesson.title());
    List<Chapter> chapters = new ArrayList<>();
    for (Map.Entry<Long, String> entry : titles.entrySet()) {
      Long next = titles.higherKey(entry.getKey());
      chapters.add(
          new Chapter(
              entry.getKey(),
              next == null ? Math.max(end, entry.getKey() + 1.0) : (double) next,
              entry.getValue()));
    }
    return chapters;
  }

  /** Techniques by kind, with their times. */
  public static String techniques(Lesson lesson, Texts texts) {
    StringBuilder text = new StringBuilder(lesson.title()).append('\n');
    for (Technique.Kind kind : Technique.Kind.values()) {
      List<LessonItem> ofKind =
          lesson.items().stream()
              .filter(item -> item.technique().filter(t -> t.kind() == kind).isPresent())
              .toList();
      append(text, texts.kind(kind), ofKind);
    }
    append(
        text,
        "Remarks",
        lesson.items().stream().filter(item -> item.technique().isEmpty()).toList());
    return text.toString();
  }

  private static void append(StringBuilder text, String title, List<LessonItem> items) {
    if (items.isEmpty()) {
      return;
    }
    text.append('\n').append(title).append('\n');
    for (LessonItem item : items) {
      text.append("  ")
          .append(clock(item.span().startSeconds()))
          .append("  ")
          .append(item.heading());
      String told = item.words().isBlank() ? item.asTold() : item.words().lines().findFirst().get();
      text.append(told.isEmpty() ? "" : ": " + told).append('\n');
    }
  }

  private static List<LessonItem> byTime(Lesson lesson) {
    List<LessonItem> items = new ArrayList<>(lesson.items());
    items.sort(Comparator.comparingDouble(item -> item.span().startSeconds()));
    return items;
  }

  private static String clock(double seconds) {
    return TimeCode.minutes(seconds);
  }

  /** A cue's text must hold neither an arrow nor markup of its own. */
  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
