package undersong.lesson.sketch;

import java.util.Map;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import undersong.lesson.sketch.Shape.Part;
import undersong.lesson.sketch.Shape.Tune;
import undersong.technique.Technique;

/** Shapes of techniques in which the tune or a second voice does something. */
final class TuneShapes {
  private TuneShapes() {}

  static void addTo(Map<Technique, Function<RandomGenerator, Shape>> shapes) {
    shapes.put(
        Technique.TENSION_TONE,
        r ->
            Shape.of(
                false,
                1,
                8,
                "The tune rests on a note the chord does not have, and leans on it.",
                Part.of("A", Shapes.any(r, "I | IV | I | IV", "I | IV | vi | IV"))
                    .sung(Tune.TENSION),
                Part.of("B", Shapes.any(r, "I | IV | I | V", "IV | I | IV | I"))
                    .sung(Tune.TENSION)));
    shapes.put(
        Technique.REINTERPRETED_TONE,
        r ->
            Shape.of(
                false,
                1,
                4,
                "The tune holds one note; the bass moves, and what belonged to the chord is foreign"
                    + " to the next.",
                Part.of("A", Shapes.any(r, "I | IV | vi | IV", "I | IV | vi | I", "I | IV | V | I"))
                    .sung(Tune.HELD),
                Part.of("B", Shapes.major(r))));

    shapes.put(
        Technique.PATTERN_SEQUENCE,
        r ->
            Shape.of(
                false,
                1,
                4,
                "One figure is carried from step to step of the scale.",
                Part.of("A", Shapes.any(r, "I | ii | iii | IV", "vi | V | IV | iii"))
                    .sung(Tune.SEQUENCE),
                Part.of("B", Shapes.major(r))));
    shapes.put(
        Technique.REGISTER_LIFT,
        r ->
            Shape.of(
                false,
                5,
                8,
                "The second section is sung much higher than the first: it rises without growing"
                    + " louder.",
                Part.of("A", Shapes.major(r)).sung(Tune.LOW),
                Part.of("B", "I | V | vi | IV").as("chorus").sung(Tune.HIGH)));
    shapes.put(
        Technique.PARALLEL_HARMONY,
        r ->
            Shape.of(
                false,
                5,
                8,
                "A second voice goes along with the tune, a third of the scale away.",
                Part.of("A", Shapes.major(r)),
                Part.of("B", "I | V | vi | IV", "second thirds").as("chorus")));
    shapes.put(
        Technique.OCTAVE_DOUBLING,
        r ->
            Shape.of(
                false,
                5,
                8,
                "A second voice sings the same tune an octave lower.",
                Part.of("A", Shapes.major(r)),
                Part.of("B", "I | V | vi | IV", "second octave").as("chorus")));
  }
}
