package undersong.lesson.sketch;

import java.util.Map;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import undersong.lesson.sketch.Shape.Part;
import undersong.lesson.sketch.Shape.Tune;
import undersong.technique.Technique;

/** Shapes of techniques that the chords alone hold. */
final class HarmonyShapes {
  private HarmonyShapes() {}

  static void addTo(Map<Technique, Function<RandomGenerator, Shape>> shapes) {
    shapes.put(
        Technique.HARMONIC_MINOR_DOMINANT,
        r ->
            Shape.of(
                true,
                4,
                8,
                "Minor's own chord on 5 is minor. Here it is major: the raised leading tone pulls"
                    + " home.",
                Part.of("A", Shapes.any(r, "i | iv | bVI | V", "i | bVI | iv | V")),
                Part.of("B", Shapes.any(r, "i | iv | V | i", "bVI | iv | V | i"))));
    shapes.put(
        Technique.BORROWED_CHORD,
        r ->
            Shape.of(
                false,
                3,
                7,
                "A chord of the parallel minor stands in major: the scale's 6 or 3 is lowered for a"
                    + " moment.",
                Part.of(
                    "A", Shapes.any(r, "I | IV | iv | I", "I | bVI | IV | I", "I | V | iv | I")),
                Part.of("B", Shapes.any(r, "I | vi | iv | I", "I | IV | iv | I"))));
    shapes.put(
        Technique.SECONDARY_DOMINANT,
        r ->
            Shape.of(
                false,
                3,
                7,
                "A major chord acts as dominant of the chord that follows, as if that were home.",
                Part.of("A", Shapes.any(r, "I | vi | V7/V | V", "I | ii | V7/V | V")),
                Part.of("B", Shapes.any(r, "I | V7/vi | vi | V", "IV | V7/vi | vi | V"))));
    shapes.put(
        Technique.GUIDE_TONE_SWITCH,
        r ->
            Shape.of(
                false,
                2,
                4,
                "The root stays, one note moves by a semitone, and the chord turns from major to"
                    + " minor.",
                Part.of("A", Shapes.any(r, "I | IV | iv | I", "vi | IV | iv | I")),
                Part.of("B", Shapes.major(r))));
    shapes.put(
        Technique.CHROMATIC_INNER_LINE,
        r ->
            Shape.of(
                true,
                1,
                4,
                "The root holds while one inner voice walks down by semitones: 1, 7, b7, 6.",
                Part.of("A", "i | imaj7 | i7 | iadd6"),
                Part.of("B", Shapes.any(r, "iv | V | i | i", "bVI | V | i | i"))));
    shapes.put(
        Technique.MODAL_COLOUR,
        r ->
            Shape.of(
                true,
                1,
                8,
                "A major chord on 4 in minor: the raised 6 colours the music dorian.",
                Part.of("A", "i | IV | i | IV"),
                Part.of("B", "i | IV | bVII | i")));
    shapes.put(
        Technique.STEPWISE_BASS_LINE,
        r ->
            Shape.of(
                false,
                1,
                5,
                "The bass walks down the scale step by step; inversions make the chords fit it.",
                Part.of("A", Shapes.any(r, "I | V6 | vi | I6/4", "I | V6 | vi | iii6")),
                Part.of("B", Shapes.any(r, "IV | I6 | ii | V", "IV | I6 | ii7 | V"))));
    shapes.put(
        Technique.PEDAL_POINT,
        r ->
            Shape.of(
                false,
                1,
                4,
                "The bass stays on one note while the chords over it go away and come back.",
                Part.of(
                    "A",
                    Shapes.any(
                        r, "I | IV over 1 | V over 1 | I", "I | bVII over 1 | IV over 1 | I")),
                Part.of("B", Shapes.major(r))));
    shapes.put(
        Technique.PLAGAL_CHAIN,
        r ->
            Shape.of(
                false,
                2,
                4,
                "Major chords fall by fourths onto the tonic, without a leading tone.",
                Part.of("A", "I | bVII | IV | I"),
                Part.of("B", Shapes.any(r, "vi | bVII | IV | I", "ii | bVII | IV | I"))));
    shapes.put(
        Technique.KEY_LIFT,
        r ->
            Shape.of(
                false,
                9,
                12,
                "The same four bars come back higher: everything is sung up a step.",
                Part.of("A", Shapes.major(r)),
                Part.of("B", "I | V | vi | IV").as("chorus"),
                Part.of("B", "I | V | vi | IV")
                    .as("chorus")
                    .with(r.nextBoolean() ? "up major-second" : "up minor-second")));
    shapes.put(
        Technique.CHORD_LOOP,
        r -> {
          String loop = Shapes.any(r, "I | V | vi | IV", "vi | IV | I | V", "I | vi | IV | V");
          return Shape.of(
              false,
              1,
              16,
              "Four chords go round and round; what happens over them must carry the song.",
              Part.of("A", String.join(" | ", loop, loop, loop, loop)));
        });
    shapes.put(
        Technique.BROKEN_LOOP,
        r ->
            Shape.of(
                false,
                9,
                12,
                "The loop is promised twice; the third time another chord comes where you wait for"
                    + " it.",
                Part.of(
                    "A",
                    "I | V | vi | IV | I | V | vi | IV | "
                        + Shapes.any(
                            r, "I | V | bVI | bVII", "I | V | iv | iv", "I | V | bIII | IV")),
                Part.of("B", Shapes.any(r, "vi | IV | I | V", "ii | IV | V | I"))));
    shapes.put(
        Technique.UNRESOLVED_ENDING,
        r ->
            Shape.of(
                false,
                8,
                8,
                "The last chord is not home. The listener is left to finish it.",
                Part.of("A", Shapes.major(r)),
                Part.of("B", Shapes.any(r, "I | IV | ii | V", "I | vi | ii | IV"))));
    shapes.put(
        Technique.DECEPTIVE_CADENCE,
        r ->
            Shape.of(
                false,
                7,
                8,
                "The dominant points home, and the music goes elsewhere.",
                Part.of("A", Shapes.any(r, "I | IV | V7 | I", "I | ii | V7 | I")),
                Part.of("B", Shapes.any(r, "I | IV | V7 | vi", "I | ii | V7 | vi"))));
    shapes.put(
        Technique.WITHHELD_THIRD,
        r ->
            Shape.of(
                true,
                1,
                4,
                "Only roots and fifths: nobody says whether it is major or minor, until the answer"
                    + " comes.",
                Part.of(
                        "A",
                        Shapes.any(
                            r,
                            "1(no 3rd) | 1(no 3rd) | b7(no 3rd) | 1(no 3rd)",
                            "1(no 3rd) | b7(no 3rd) | 1(no 3rd) | b7(no 3rd)"))
                    .sung(Tune.SILENT),
                Part.of("B", Shapes.any(r, "i | bVII | bVI | i", "i | bVI | bVII | i"))));
  }
}
