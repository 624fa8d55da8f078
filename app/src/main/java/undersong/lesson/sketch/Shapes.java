package undersong.lesson.sketch;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import undersong.lesson.sketch.Shape.Part;
import undersong.lesson.sketch.Shape.Tune;
import undersong.technique.Technique;

/** Shapes by technique, each with what may vary in it drawn anew. */
final class Shapes {
  private static final Map<Technique, Function<RandomGenerator, Shape>> SHAPES = new TreeMap<>();

  static {
    harmony();
    chordsUnderATune();
    lines();
    rhythm();
    production();
    ArrangedShapes.addTo(SHAPES);
  }

  private static final String[] HALF_TIME = {
    "snare follows ........X.......", "kick follows x...........x..."
  };

  private Shapes() {}

  static boolean has(Technique technique) {
    return SHAPES.containsKey(technique);
  }

  static List<Technique> known() {
    return List.copyOf(SHAPES.keySet());
  }

  static Shape of(Technique technique, RandomGenerator random) {
    return SHAPES.get(technique).apply(random);
  }

  private static String any(RandomGenerator random, String... choices) {
    return choices[random.nextInt(choices.length)];
  }

  private static String major(RandomGenerator r) {
    return any(r, "I | vi | IV | V", "I | IV | ii | V", "I | iii | IV | V", "I | ii | IV | V");
  }

  private static void harmony() {
    SHAPES.put(
        Technique.HARMONIC_MINOR_DOMINANT,
        r ->
            Shape.of(
                true,
                4,
                8,
                "Minor's own chord on 5 is minor. Here it is major: the raised leading tone pulls"
                    + " home.",
                Part.of("A", any(r, "i | iv | bVI | V", "i | bVI | iv | V")),
                Part.of("B", any(r, "i | iv | V | i", "bVI | iv | V | i"))));
    SHAPES.put(
        Technique.BORROWED_CHORD,
        r ->
            Shape.of(
                false,
                3,
                7,
                "A chord of the parallel minor stands in major: the scale's 6 or 3 is lowered for a"
                    + " moment.",
                Part.of("A", any(r, "I | IV | iv | I", "I | bVI | IV | I", "I | V | iv | I")),
                Part.of("B", any(r, "I | vi | iv | I", "I | IV | iv | I"))));
    SHAPES.put(
        Technique.SECONDARY_DOMINANT,
        r ->
            Shape.of(
                false,
                3,
                7,
                "A major chord acts as dominant of the chord that follows, as if that were home.",
                Part.of("A", any(r, "I | vi | V7/V | V", "I | ii | V7/V | V")),
                Part.of("B", any(r, "I | V7/vi | vi | V", "IV | V7/vi | vi | V"))));
    SHAPES.put(
        Technique.GUIDE_TONE_SWITCH,
        r ->
            Shape.of(
                false,
                2,
                4,
                "The root stays, one note moves by a semitone, and the chord turns from major to"
                    + " minor.",
                Part.of("A", any(r, "I | IV | iv | I", "vi | IV | iv | I")),
                Part.of("B", major(r))));
    SHAPES.put(
        Technique.CHROMATIC_INNER_LINE,
        r ->
            Shape.of(
                true,
                1,
                4,
                "The root holds while one inner voice walks down by semitones: 1, 7, b7, 6.",
                Part.of("A", "i | imaj7 | i7 | iadd6"),
                Part.of("B", any(r, "iv | V | i | i", "bVI | V | i | i"))));
    SHAPES.put(
        Technique.MODAL_COLOUR,
        r ->
            Shape.of(
                true,
                1,
                8,
                "A major chord on 4 in minor: the raised 6 colours the music dorian.",
                Part.of("A", "i | IV | i | IV"),
                Part.of("B", "i | IV | bVII | i")));
    SHAPES.put(
        Technique.STEPWISE_BASS_LINE,
        r ->
            Shape.of(
                false,
                1,
                5,
                "The bass walks down the scale step by step; inversions make the chords fit it.",
                Part.of("A", any(r, "I | V6 | vi | I6/4", "I | V6 | vi | iii6")),
                Part.of("B", any(r, "IV | I6 | ii | V", "IV | I6 | ii7 | V"))));
    SHAPES.put(
        Technique.PEDAL_POINT,
        r ->
            Shape.of(
                false,
                1,
                4,
                "The bass stays on one note while the chords over it go away and come back.",
                Part.of(
                    "A", any(r, "I | IV over 1 | V over 1 | I", "I | bVII over 1 | IV over 1 | I")),
                Part.of("B", major(r))));
    SHAPES.put(
        Technique.PLAGAL_CHAIN,
        r ->
            Shape.of(
                false,
                2,
                4,
                "Major chords fall by fourths onto the tonic, without a leading tone.",
                Part.of("A", "I | bVII | IV | I"),
                Part.of("B", any(r, "vi | bVII | IV | I", "ii | bVII | IV | I"))));
    SHAPES.put(
        Technique.KEY_LIFT,
        r ->
            Shape.of(
                false,
                9,
                12,
                "The same four bars come back higher: everything is sung up a step.",
                Part.of("A", major(r)),
                Part.of("B", "I | V | vi | IV").as("chorus"),
                Part.of("B", "I | V | vi | IV")
                    .as("chorus")
                    .with(r.nextBoolean() ? "up major-second" : "up minor-second")));
    SHAPES.put(
        Technique.CHORD_LOOP,
        r -> {
          String loop = any(r, "I | V | vi | IV", "vi | IV | I | V", "I | vi | IV | V");
          return Shape.of(
              false,
              1,
              16,
              "Four chords go round and round; what happens over them must carry the song.",
              Part.of("A", String.join(" | ", loop, loop, loop, loop)));
        });
    SHAPES.put(
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
                        + any(r, "I | V | bVI | bVII", "I | V | iv | iv", "I | V | bIII | IV")),
                Part.of("B", any(r, "vi | IV | I | V", "ii | IV | V | I"))));
    SHAPES.put(
        Technique.UNRESOLVED_ENDING,
        r ->
            Shape.of(
                false,
                8,
                8,
                "The last chord is not home. The listener is left to finish it.",
                Part.of("A", major(r)),
                Part.of("B", any(r, "I | IV | ii | V", "I | vi | ii | IV"))));
    SHAPES.put(
        Technique.DECEPTIVE_CADENCE,
        r ->
            Shape.of(
                false,
                7,
                8,
                "The dominant points home, and the music goes elsewhere.",
                Part.of("A", any(r, "I | IV | V7 | I", "I | ii | V7 | I")),
                Part.of("B", any(r, "I | IV | V7 | vi", "I | ii | V7 | vi"))));
    SHAPES.put(
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
                        any(
                            r,
                            "1(no 3rd) | 1(no 3rd) | b7(no 3rd) | 1(no 3rd)",
                            "1(no 3rd) | b7(no 3rd) | 1(no 3rd) | b7(no 3rd)"))
                    .sung(Tune.SILENT),
                Part.of("B", any(r, "i | bVII | bVI | i", "i | bVI | bVII | i"))));
  }

  private static void chordsUnderATune() {
    SHAPES.put(
        Technique.TENSION_TONE,
        r ->
            Shape.of(
                false,
                1,
                8,
                "The tune rests on a note the chord does not have, and leans on it.",
                Part.of("A", any(r, "I | IV | I | IV", "I | IV | vi | IV")).sung(Tune.TENSION),
                Part.of("B", any(r, "I | IV | I | V", "IV | I | IV | I")).sung(Tune.TENSION)));
    SHAPES.put(
        Technique.REINTERPRETED_TONE,
        r ->
            Shape.of(
                false,
                1,
                4,
                "The tune holds one note; the bass moves, and what belonged to the chord is foreign"
                    + " to the next.",
                Part.of("A", any(r, "I | IV | vi | IV", "I | IV | vi | I", "I | IV | V | I"))
                    .sung(Tune.HELD),
                Part.of("B", major(r))));
  }

  private static void lines() {
    SHAPES.put(
        Technique.PATTERN_SEQUENCE,
        r ->
            Shape.of(
                false,
                1,
                4,
                "One figure is carried from step to step of the scale.",
                Part.of("A", any(r, "I | ii | iii | IV", "vi | V | IV | iii")).sung(Tune.SEQUENCE),
                Part.of("B", major(r))));
    SHAPES.put(
        Technique.REGISTER_LIFT,
        r ->
            Shape.of(
                false,
                5,
                8,
                "The second section is sung much higher than the first: it rises without growing"
                    + " louder.",
                Part.of("A", major(r)).sung(Tune.LOW),
                Part.of("B", "I | V | vi | IV").as("chorus").sung(Tune.HIGH)));
    SHAPES.put(
        Technique.PARALLEL_HARMONY,
        r ->
            Shape.of(
                false,
                5,
                8,
                "A second voice goes along with the tune, a third of the scale away.",
                Part.of("A", major(r)),
                Part.of("B", "I | V | vi | IV", "second thirds").as("chorus")));
    SHAPES.put(
        Technique.OCTAVE_DOUBLING,
        r ->
            Shape.of(
                false,
                5,
                8,
                "A second voice sings the same tune an octave lower.",
                Part.of("A", major(r)),
                Part.of("B", "I | V | vi | IV", "second octave").as("chorus")));
  }

  private static void rhythm() {
    SHAPES.put(
        Technique.ANTICIPATED_CHANGES,
        r ->
            Shape.of(
                false,
                5,
                12,
                "Every chord comes before its bar line and holds through it, while the drums stay.",
                Part.of("A", major(r)),
                Part.of("B", "I | V | vi | IV").as("chorus").with("early " + any(r, "0.5", "1")),
                Part.of("B", "I | V | vi | IV").as("chorus").with("early 0.5")));
    SHAPES.put(
        Technique.THREE_THREE_TWO,
        r ->
            Shape.of(
                false,
                1,
                8,
                "The bass groups eight eighths as three, three and two.",
                Part.of("A", major(r), "bass follows x--x--x-", "keys follows x--x--x-"),
                Part.of("B", major(r), "bass follows x--x--x-", "keys follows x--x--x-")));
    SHAPES.put(
        Technique.SYNCOPATED_BASS,
        r ->
            Shape.of(
                false,
                1,
                8,
                "The bass leans over the strong beats: it comes between them and is held across.",
                Part.of("A", major(r), "bass follows " + any(r, ".x-x-x-x", "x-.x-x-x")),
                Part.of("B", major(r), "bass follows .x-x-x-x")));
    SHAPES.put(
        Technique.HALF_TIME_FEEL,
        r ->
            Shape.of(
                false,
                9,
                16,
                "The snare moves from 2 and 4 to 3 alone; the beat stays, and everything seems to"
                    + " widen.",
                Part.of("A", major(r)),
                Part.of("A", major(r)),
                Part.of("B", major(r), HALF_TIME),
                Part.of("B", major(r), HALF_TIME)));
    SHAPES.put(
        Technique.METER_CHANGE,
        r ->
            Shape.of(
                false,
                5,
                8,
                "The bars change from four beats to three.",
                Part.of("A", major(r)),
                Part.of(
                        "B",
                        major(r),
                        "snare follows ....x...x...",
                        "kick follows x...........",
                        "hat follows x.x.x.x.x.x.",
                        "keys follows x-x-x-",
                        "bass follows x-x-x-")
                    .with("meter 3/4")
                    .sung(Tune.SILENT),
                Part.of("A", major(r))));
  }

  /** Told by the rendering, not by the notes. */
  private static void production() {
    SHAPES.put(
        Technique.ALTERNATING_PAN,
        r ->
            Shape.of(
                false,
                5,
                8,
                "Short plucks change sides from note to note while the voice stays in the middle.",
                Part.of("A", major(r)),
                Part.of("B", "I | V | vi | IV", "pluck follows 1.2.3.2.", "pluck mix sway 0.9")));
    SHAPES.put(
        Technique.ECHO,
        r ->
            Shape.of(
                false,
                5,
                8,
                "What is plucked comes back by itself, softer each time.",
                Part.of("A", major(r)),
                Part.of(
                    "B",
                    "I | V | vi | IV",
                    "pluck follows 3.......",
                    "pluck mix echo " + any(r, "0.75", "1") + " echo-fall 5")));
    SHAPES.put(
        Technique.DUCKING,
        r ->
            Shape.of(
                false,
                5,
                12,
                "Held chords dip at every kick and come back: the whole music breathes.",
                Part.of("A", major(r)),
                Part.of(
                    "B",
                    "I | V | vi | IV | I | V | vi | IV",
                    "kick follows x...x...x...x...",
                    "pad follows held",
                    "pad mix duck 12 level -4",
                    "keys follows x-------",
                    "keys mix duck 8")));
    SHAPES.put(
        Technique.FILTER_SWEEP,
        r ->
            Shape.of(
                false,
                1,
                4,
                "The sound opens from dark to bright while the notes stay the same.",
                Part.of(
                        "A",
                        major(r),
                        "keys follows x-x-x-x-",
                        "keys mix sweep-from 300 sweep-to 8000")
                    .sung(Tune.SILENT),
                Part.of("B", major(r))));
    SHAPES.put(
        Technique.DRUM_DROPOUT,
        r ->
            Shape.of(
                false,
                5,
                8,
                "The drums are gone, and their return is an event.",
                Part.of("A", major(r)),
                Part.of("B", major(r), "kick rests", "snare rests", "hat rests"),
                Part.of("A", major(r))));
    SHAPES.put(
        Technique.WIDE_DOUBLE,
        r ->
            Shape.of(
                false,
                5,
                8,
                "The guitar is played twice, one take left, one right.",
                Part.of("A", major(r)),
                Part.of(
                    "B", "I | V | vi | IV", "guitar follows x---x---", "guitar mix double 0.9")));
  }
}
