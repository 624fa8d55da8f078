package undersong.lesson.sketch;

import java.util.Map;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import undersong.lesson.sketch.Shape.Part;
import undersong.lesson.sketch.Shape.Tune;
import undersong.technique.Technique;

/** Shapes of techniques that the rendering tells, not the notes. */
final class ProductionShapes {
  private ProductionShapes() {}

  static void addTo(Map<Technique, Function<RandomGenerator, Shape>> shapes) {
    shapes.put(
        Technique.ALTERNATING_PAN,
        r ->
            Shape.of(
                false,
                5,
                8,
                "Short plucks change sides from note to note while the voice stays in the middle.",
                Part.of("A", Shapes.major(r)),
                Part.of("B", "I | V | vi | IV", "pluck follows 1.2.3.2.", "pluck mix sway 0.9")));
    shapes.put(
        Technique.ECHO,
        r ->
            Shape.of(
                false,
                5,
                8,
                "What is plucked comes back by itself, softer each time.",
                Part.of("A", Shapes.major(r)),
                Part.of(
                    "B",
                    "I | V | vi | IV",
                    "pluck follows 3.......",
                    "pluck mix echo " + Shapes.any(r, "0.75", "1") + " echo-fall 5")));
    shapes.put(
        Technique.DUCKING,
        r ->
            Shape.of(
                false,
                5,
                12,
                "Held chords dip at every kick and come back: the whole music breathes.",
                Part.of("A", Shapes.major(r)),
                Part.of(
                    "B",
                    "I | V | vi | IV | I | V | vi | IV",
                    "kick follows x...x...x...x...",
                    "pad follows held",
                    "pad mix duck 12 level -4",
                    "keys follows x-------",
                    "keys mix duck 8")));
    shapes.put(
        Technique.FILTER_SWEEP,
        r ->
            Shape.of(
                false,
                1,
                4,
                "The sound opens from dark to bright while the notes stay the same.",
                Part.of(
                        "A",
                        Shapes.major(r),
                        "keys follows x-x-x-x-",
                        "keys mix sweep-from 300 sweep-to 8000")
                    .sung(Tune.SILENT),
                Part.of("B", Shapes.major(r))));
    shapes.put(
        Technique.DRUM_DROPOUT,
        r ->
            Shape.of(
                false,
                5,
                8,
                "The drums are gone, and their return is an event.",
                Part.of("A", Shapes.major(r)),
                Part.of("B", Shapes.major(r), "kick rests", "snare rests", "hat rests"),
                Part.of("A", Shapes.major(r))));
    shapes.put(
        Technique.WIDE_DOUBLE,
        r ->
            Shape.of(
                false,
                5,
                8,
                "The guitar is played twice, one take left, one right.",
                Part.of("A", Shapes.major(r)),
                Part.of(
                    "B", "I | V | vi | IV", "guitar follows x---x---", "guitar mix double 0.9")));
  }
}
