package undersong.lesson;

import java.util.List;
import undersong.lesson.drill.DrillKind;
import undersong.notation.NotationSettings;

/**
 * A lesson on one song.
 *
 * @param title in the teacher's words
 * @param revision of the reading it was made from
 * @param settings of the class: syllables, numerals, transposing instrument
 * @param level of the class, 1 to {@link DrillKind#LEVELS}: where the page's exercises begin
 * @param items in the order of telling
 */
public record Lesson(
    long songId,
    String title,
    int revision,
    NotationSettings settings,
    int level,
    List<LessonItem> items) {
  private static final int MOST_ITEMS = 60;

  public Lesson {
    items = List.copyOf(items);
    if (title.isBlank() || title.length() > 200) {
      throw new IllegalArgumentException(
          "A lesson needs a title of 1 to 200 characters, not %d."
              .formatted(title.strip().length()));
    }
    if (level < 1 || level > DrillKind.LEVELS) {
      throw new IllegalArgumentException(
          "The level of a class must lie within 1 to %d, not %d."
              .formatted(DrillKind.LEVELS, level));
    }
    if (items.size() > MOST_ITEMS) {
      throw new IllegalArgumentException(
          "A lesson has at most %d items, not %d.".formatted(MOST_ITEMS, items.size()));
    }
  }

  public Lesson withItems(List<LessonItem> others) {
    return new Lesson(songId, title, revision, settings, level, others);
  }

  public Lesson withTitle(String other) {
    return new Lesson(songId, other, revision, settings, level, items);
  }

  public Lesson withLevel(int other) {
    return new Lesson(songId, title, revision, settings, other, items);
  }

  /** The same words, pinned to another reading. */
  public Lesson withRevision(int other) {
    return new Lesson(songId, title, other, settings, level, items);
  }
}
