package undersong.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.technique.Finding;
import undersong.technique.Texts;

/**
 * What the reading says otherwise than when an item was chosen. The teacher's words stay as they
 * are; the teacher decides.
 *
 * @param item its place in the lesson, from 0
 * @param before what was told then
 * @param now what is told now; empty where it is told no more
 */
public record LessonChange(int item, String before, Optional<String> now) {

  /** Changes since the lesson was made, in the order of its items. */
  public static List<LessonChange> of(Lesson lesson, List<Finding> findings, Texts texts) {
    List<LessonChange> changes = new ArrayList<>();
    for (int i = 0; i < lesson.items().size(); i++) {
      LessonItem item = lesson.items().get(i);
      if (item.technique().isEmpty()) {
        continue;
      }
      Optional<String> now = LessonPlan.now(item, findings).map(texts::summary);
      if (!now.equals(Optional.of(item.asTold()))) {
        changes.add(new LessonChange(i, item.asTold(), now));
      }
    }
    return changes;
  }
}
