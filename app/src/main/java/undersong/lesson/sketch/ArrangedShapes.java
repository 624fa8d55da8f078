package undersong.lesson.sketch;

import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import undersong.lesson.sketch.Shape.Part;
import undersong.lesson.sketch.Shape.Tune;
import undersong.technique.Technique;

/** Shapes of techniques that one section shows beside another: form, pace, arrangement. */
final class ArrangedShapes {
  private static final String CHORUS = "I | V | vi | IV";

  private ArrangedShapes() {}

  static void addTo(Map<Technique, Function<RandomGenerator, Shape>> shapes) {
    shapes.put(Technique.MODULATION, ArrangedShapes::modulation);
    shapes.put(Technique.MELODIC_PEAK, ArrangedShapes::peak);
    shapes.put(Technique.CALL_AND_RESPONSE, ArrangedShapes::answers);
    shapes.put(Technique.RIFF, ArrangedShapes::riff);
    shapes.put(Technique.TEMPO_CHANGE, ArrangedShapes::pace);
    shapes.put(Technique.HARMONIC_RHYTHM_CHANGE, ArrangedShapes::harmonicRhythm);
    shapes.put(Technique.IRREGULAR_PHRASE, ArrangedShapes::irregular);
    shapes.put(Technique.STOP_TIME, ArrangedShapes::stop);
    shapes.put(Technique.CHORUS_FIRST, ArrangedShapes::chorusFirst);
    shapes.put(
        Technique.LAYERED_REPEAT,
        added("A held chord joins when the same four bars come again.", "pad follows held"));
    shapes.put(
        Technique.PLUCKED_LAYER,
        added("Short plucks join what sounds already.", "pluck follows 1.3.2.3."));
    shapes.put(
        Technique.SUB_BASS_ENTRY,
        added("The lowest octave comes in when the bars come again.", "sub follows held"));
    shapes.put(
        Technique.VOCAL_STACK,
        r ->
            new Shape(
                false,
                List.of(
                    Part.of("A", Shapes.major(r)),
                    Part.of("B", CHORUS, "second thirds").as("chorus")),
                5,
                8,
                "Where one voice sang, two sing."));
    shapes.put(
        Technique.WIDTH_CHANGE,
        r ->
            Shape.of(
                false,
                5,
                8,
                "The same band becomes wide: a pad is played twice, one take left, one right.",
                Part.of("A", Shapes.major(r)),
                Part.of("B", CHORUS, "pad follows held", "pad mix double 0.95 level -6")
                    .as("chorus")));
    shapes.put(
        Technique.RISER,
        r ->
            Shape.of(
                false,
                3,
                4,
                "Something climbs for two bars into the next section and is gone at its first"
                    + " beat.",
                Part.of("A", Shapes.major(r), "rise plays | . | . | x - - - | - - - - |"),
                Part.of("B", CHORUS).as("chorus")));
    shapes.put(
        Technique.SWELL,
        r ->
            Shape.of(
                false,
                4,
                4,
                "A sound without attack grows out of nothing into the next section.",
                Part.of("A", Shapes.major(r), "swell plays | . | . | . | x - - - |"),
                Part.of("B", CHORUS).as("chorus")));
  }

  private static Function<RandomGenerator, Shape> added(String why, String line) {
    return r -> {
      String chords = Shapes.major(r);
      return Shape.of(false, 5, 8, why, Part.of("A", chords), Part.of("A", chords, line));
    };
  }

  private static Shape modulation(RandomGenerator r) {
    return Shape.of(
        false,
        5,
        8,
        "A new home is entered and confirmed by its own dominant; then the old one comes back.",
        Part.of("A", Shapes.major(r)),
        Part.of("B", Shapes.any(r, "I | IV | V7 | I", "I | ii | V7 | I"))
            .as("bridge")
            .with("up " + Shapes.any(r, "minor-third", "perfect-fourth")),
        Part.of("A", Shapes.major(r)));
  }

  private static Shape peak(RandomGenerator r) {
    String chords = Shapes.major(r);
    return Shape.of(
        false,
        9,
        12,
        "The highest notes of the tune are saved for its last section.",
        Part.of("A", chords).sung(Tune.LOW),
        Part.of("A", chords).sung(Tune.LOW),
        Part.of("B", CHORUS).as("chorus").sung(Tune.HIGH));
  }

  private static Shape answers(RandomGenerator r) {
    return Shape.of(
        false,
        1,
        8,
        "The voice leaves every second bar free, and the horn answers there.",
        Part.of(
                "A",
                Shapes.any(
                    r, "I | vi | IV | V | I | vi | ii | I", "I | IV | ii | V | I | IV | V | I"),
                "horn answers")
            .sung(Tune.CALLS));
  }

  private static Shape riff(RandomGenerator r) {
    return Shape.of(
        false,
        1,
        8,
        "One bar goes round and round; it says the tonic without a word.",
        new Part(
            "intro",
            "I",
            List.of("I", "I", "IV", "I", "I", "I", "IV", "I"),
            "",
            List.of("riff figure"),
            Tune.SILENT),
        Part.of("A", Shapes.major(r)));
  }

  private static Shape pace(RandomGenerator r) {
    return Shape.of(
        false,
        5,
        6,
        "The beat itself changes and stays so.",
        Part.of("A", Shapes.major(r)),
        Part.of("B", CHORUS + " | " + CHORUS)
            .as("chorus")
            .with("pace " + Shapes.any(r, "0.82", "0.86", "1.14", "1.2")));
  }

  private static Shape harmonicRhythm(RandomGenerator r) {
    return Shape.of(
        false,
        5,
        8,
        "The chords change half as often as before: the music opens without a change of beat.",
        Part.of("A", Shapes.major(r)),
        Part.of("B", Shapes.any(r, "I | I | IV | IV", "vi | vi | IV | IV", "IV | IV | V | V"))
            .as("chorus"));
  }

  private static Shape irregular(RandomGenerator r) {
    String chords = Shapes.major(r);
    return Shape.of(
        false,
        5,
        9,
        "The second phrase waits one bar longer than the others before it goes on.",
        Part.of("A", chords),
        Part.of("A", chords + " | V"),
        Part.of("A", chords));
  }

  private static Shape stop(RandomGenerator r) {
    return Shape.of(
        false,
        4,
        4,
        "Everything stops after a beat and a half; the silence throws the next section forward.",
        Part.of(
                "A",
                Shapes.major(r),
                "keys follows x---x---|x---x---|x---x---|x--.....",
                "bass follows x---x---|x---x---|x---x---|x--.....",
                "kick follows x...x...|x...x...|x...x...|x.......",
                "snare follows ..x...x.|..x...x.|..x...x.|........",
                "hat follows xxxxxxxx|xxxxxxxx|xxxxxxxx|x.......")
            .sung(Tune.STOPS),
        Part.of("B", CHORUS).as("chorus"));
  }

  private static Shape chorusFirst(RandomGenerator r) {
    return Shape.of(
        false,
        1,
        4,
        "The song opens with what others save: its chorus.",
        Part.of("B", CHORUS).as("chorus"),
        Part.of("A", Shapes.major(r)),
        Part.of("B", CHORUS).as("chorus"));
  }
}
