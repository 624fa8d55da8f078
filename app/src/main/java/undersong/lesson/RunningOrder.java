package undersong.lesson;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
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

  /** Chapters of a video that follows the song: {@code M:SS heading}, from 0:00, by time. */
  public static String chapters(Lesson lesson) {
    StringBuilder text = new StringBuilder();
    List<LessonItem> items = byTime(lesson);
    if (items.isEmpty() || items.get(0).span().startSeconds() >= 1) {
      text.append("0:00 ").append(lesson.title()).append('\n');
    }
    long last = -1;
    for (LessonItem item : items) {
      long second = (long) Math.floor(item.span().startSeconds());
      if (second > last) {
        text.append(clock((double) second)).append(' ').append(item.heading()).append('\n');
        last = second;
      }
    }
    return text.toString();
  }

  /** The same as WebVTT (W3C): a cue an item, from its beginning to its end. */
  public static String webVtt(Lesson lesson) {
    StringBuilder text = new StringBuilder("WEBVTT\n");
    int number = 1;
    for (LessonItem item : byTime(lesson)) {
      text.append('\n')
          .append(number++)
          .append('\n')
          .append(TimeCode.webVtt(item.span().startSeconds()))
          .append(" --> ")
          .append(
              TimeCode.webVtt(Math.max(item.span().endSeconds(), item.span().startSeconds() + 0.1)))
          .append('\n')
          .append(escaped(item.heading()))
          .append('\n');
    }
    return text.toString();
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
