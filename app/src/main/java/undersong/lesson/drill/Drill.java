package undersong.lesson.drill;

import java.util.List;
import java.util.OptionalInt;

/**
 * One exercise with its answer.
 *
 * @param prompt what to do
 * @param tones what sounds
 * @param choices answers to choose among; empty where it is sung
 * @param answer place of the right one among the choices; 0 where it is sung
 * @param sung pitch class to sing, C = 0; empty where one chooses
 * @param explanation why the answer is right
 */
public record Drill(
    DrillKind kind,
    int level,
    String prompt,
    List<Tone> tones,
    List<String> choices,
    int answer,
    OptionalInt sung,
    String explanation) {
  public Drill {
    tones = List.copyOf(tones);
    choices = List.copyOf(choices);
    boolean chosen = sung.isEmpty();
    if (chosen && (choices.size() < 2 || answer < 0 || answer >= choices.size())) {
      throw new IllegalArgumentException(
          "%s needs two choices at least and its answer among them.".formatted(kind));
    }
    if (choices.stream().distinct().count() < choices.size()) {
      throw new IllegalArgumentException("%s offers %s twice.".formatted(kind, choices));
    }
    if (level < 1 || level > DrillKind.LEVELS) {
      throw new IllegalArgumentException("Level %d must lie within 1 to 3.".formatted(level));
    }
    if (tones.isEmpty()) {
      throw new IllegalArgumentException("%s sounds nothing.".formatted(kind));
    }
  }
}
