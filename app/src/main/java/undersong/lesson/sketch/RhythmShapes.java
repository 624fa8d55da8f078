package undersong.lesson.sketch;

import java.util.Map;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import undersong.lesson.sketch.Shape.Part;
import undersong.lesson.sketch.Shape.Tune;
import undersong.technique.Technique;

/** Shapes of techniques of accent and meter. */
final class RhythmShapes {
  private static final String[] HALF_TIME = {
    "snare follows ........X.......", "kick follows x...........x..."
  };

  private RhythmShapes() {}

  static void addTo(Map<Technique, Function<RandomGenerator, Shape>> shapes) {
    shapes.put(
        Technique.ANTICIPATED_CHANGES,
        r ->
            Shape.of(
                false,
                5,
                12,
                "Every chord comes before its bar line and holds through it, while the drums stay.",
                Part.of("A", Shapes.major(r)),
                Part.of("B", "I | V | vi | IV")
                    .as("chorus")
                    .with("early " + Shapes.any(r, "0.5", "1")),
                Part.of("B", "I | V | vi | IV").as("chorus").with("early 0.5")));
    shapes.put(
        Technique.THREE_THREE_TWO,
        r ->
            Shape.of(
                false,
                1,
                8,
                "The bass groups eight eighths as three, three and two.",
                Part.of("A", Shapes.major(r), "bass follows x--x--x-", "keys follows x--x--x-"),
                Part.of("B", Shapes.major(r), "bass follows x--x--x-", "keys follows x--x--x-")));
    shapes.put(
        Technique.SYNCOPATED_BASS,
        r ->
            Shape.of(
                false,
                1,
                8,
                "The bass leans over the strong beats: it comes between them and is held across.",
                Part.of(
                    "A", Shapes.major(r), "bass follows " + Shapes.any(r, ".x-x-x-x", "x-.x-x-x")),
                Part.of("B", Shapes.major(r), "bass follows .x-x-x-x")));
    shapes.put(
        Technique.HALF_TIME_FEEL,
        r ->
            Shape.of(
                false,
                9,
                16,
                "The snare moves from 2 and 4 to 3 alone; the beat stays, and everything seems to"
                    + " widen.",
                Part.of("A", Shapes.major(r)),
                Part.of("A", Shapes.major(r)),
                Part.of("B", Shapes.major(r), HALF_TIME),
                Part.of("B", Shapes.major(r), HALF_TIME)));
    shapes.put(
        Technique.METER_CHANGE,
        r ->
            Shape.of(
                false,
                5,
                8,
                "The bars change from four beats to three.",
                Part.of("A", Shapes.major(r)),
                Part.of(
                        "B",
                        Shapes.major(r),
                        "snare follows ....x...x...",
                        "kick follows x...........",
                        "hat follows x.x.x.x.x.x.",
                        "keys follows x-x-x-",
                        "bass follows x-x-x-")
                    .with("meter 3/4")
                    .sung(Tune.SILENT),
                Part.of("A", Shapes.major(r))));
  }
}
