package undersong.lesson.drill;

import java.util.List;
import undersong.theory.NoteName;

/** The answer key of a page of exercises. */
public final class DrillWords {
  private DrillWords() {}

  /** Numbered as the page counts them: anew in every kind and level. */
  public static String answers(List<Drill> drills) {
    StringBuilder text = new StringBuilder("Answer key\n");
    DrillKind kind = null;
    int level = 0;
    int number = 0;
    for (Drill drill : drills) {
      if (drill.kind() != kind || drill.level() != level) {
        kind = drill.kind();
        level = drill.level();
        number = 0;
        text.append('\n').append(kind.title()).append(", level ").append(level).append("\n\n");
      }
      number++;
      text.append("%3d. ".formatted(number)).append(answer(drill)).append(". ");
      text.append(drill.explanation()).append('\n');
    }
    return text.toString();
  }

  private static String answer(Drill drill) {
    return drill.sung().isPresent()
        ? "Sing " + spelled(drill.sung().getAsInt())
        : drill.choices().get(drill.answer());
  }

  private static NoteName spelled(int pitchClass) {
    // From five flats to six sharps every pitch class has one name.
    for (int fifths = -5; fifths <= 6; fifths++) {
      if (new NoteName(fifths).pitchClass() == pitchClass) {
        return new NoteName(fifths);
      }
    }
    throw new IllegalArgumentException(
        "Pitch class %d must lie within 0 to 11.".formatted(pitchClass));
  }
}
