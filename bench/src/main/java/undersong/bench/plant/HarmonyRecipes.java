package undersong.bench.plant;

import static undersong.bench.plant.Recipe.Slot.BASS;
import static undersong.bench.plant.Recipe.Slot.BRIDGE;
import static undersong.bench.plant.Recipe.Slot.CHORUS_CHORDS;
import static undersong.bench.plant.Recipe.Slot.CHORUS_TUNE;
import static undersong.bench.plant.Recipe.Slot.ENDING;
import static undersong.bench.plant.Recipe.Slot.LINE;
import static undersong.bench.plant.Recipe.Slot.SECOND_CHORUS;
import static undersong.bench.plant.Recipe.Slot.SECOND_VERSE;
import static undersong.bench.plant.Recipe.Slot.VERSE_CHORDS;
import static undersong.bench.plant.Recipe.Slot.VERSE_TUNE;
import static undersong.bench.plant.Recipe.Tonality.ANY;
import static undersong.bench.plant.Recipe.Tonality.MAJOR;
import static undersong.bench.plant.Recipe.Tonality.MINOR;

import java.util.Arrays;
import java.util.List;
import undersong.technique.Technique;

/** How harmony is planted; chords in C major or A minor. */
final class HarmonyRecipes {
  private HarmonyRecipes() {}

  static List<Recipe> all() {
    return List.of(
        Recipe.of(Technique.HARMONIC_MINOR_DOMINANT, MINOR, VERSE_CHORDS)
            .chords(
                p -> {
                  p.mode = "harmonic-minor";
                  verse(p, "Am|C|Dm|F|Dm|Am|E|Am", "Am|Dm|C|F|Am|Dm|E7|Am");
                  p.verse.plant("harmonic-minor-dominant", 7, 7);
                }),
        Recipe.of(Technique.BORROWED_CHORD, MAJOR, VERSE_CHORDS)
            .chords(
                p -> {
                  verse(p, "C|Am|Dm|F|C|Ab|G|C", "C|Em|Am|Dm|Am|Fm|G|C");
                  p.verse.plant("borrowed-chord", 6, 6);
                }),
        Recipe.of(Technique.SECONDARY_DOMINANT, MAJOR, CHORUS_CHORDS)
            .chords(
                p -> {
                  chorus(p, "C|F|Am|D7|G|F|G|C", "F|C|Em|A7|Dm|F|G|C", "C|Dm|F|E7|Am|F|G|C");
                  p.chorus.plant("secondary-dominant", 4, 5);
                }),
        Recipe.of(Technique.MODAL_COLOUR, ANY, VERSE_CHORDS)
            .besides(Technique.CHORD_LOOP, Technique.BORROWED_CHORD, Technique.HALF_CADENCE)
            .chords(
                p -> {
                  p.mode = p.minor ? "dorian" : "mixolydian";
                  p.verse.chords(p.minor ? "Am|D|Am|D|Am|D|Am|Am" : "C|Bb|C|Bb|C|Bb|C|C");
                  p.verse.plant("modal-colour");
                }),
        Recipe.of(Technique.CHROMATIC_INNER_LINE, ANY, CHORUS_CHORDS, LINE)
            .besides(
                Technique.GUIDE_TONE_SWITCH,
                Technique.SECONDARY_DOMINANT,
                Technique.MODAL_COLOUR,
                Technique.BORROWED_CHORD)
            .chords(HarmonyRecipes::innerLine),
        Recipe.of(Technique.GUIDE_TONE_SWITCH, ANY, CHORUS_CHORDS)
            .besides(Technique.BORROWED_CHORD, Technique.HARMONIC_MINOR_DOMINANT)
            .chords(
                p -> {
                  p.chorus.chords(p.minor ? "Am|C|Dm|F|Em|E|Am|Am" : "C|F|Am|Em|Dm|Ddim|C|C");
                  p.chorus.plant("guide-tone-switch", 5, 6);
                }),
        Recipe.of(Technique.WITHHELD_THIRD, ANY, VERSE_CHORDS)
            .chords(
                p -> {
                  p.verse.chords(p.minor ? "A5|A5|D5|F5|A5|D5|E5|A5" : "C5|C5|F5|A5|C5|D5|G5|C5");
                  p.verse.plant("withheld-third");
                }),
        Recipe.of(Technique.PEDAL_POINT, ANY, CHORUS_CHORDS, BASS)
            .chords(
                p -> {
                  p.chorus.chords(p.minor ? "Am|Dm/A|G/A|Am|F|Dm|Em|Am" : "C|F/C|G/C|C|Am|Dm|G|C");
                  p.chorus.plant("pedal-point", 1, 4);
                }),
        Recipe.of(Technique.STEPWISE_BASS_LINE, ANY, VERSE_CHORDS, BASS)
            .besides(Technique.HARMONIC_MINOR_DOMINANT)
            .chords(
                p -> {
                  p.verse.chords(p.minor ? "Am|Em/G|F|E|Am|Dm|Em|Am" : "C|G/B|Am|C/G|F|Dm|G|C");
                  p.verse.plant("stepwise-bass-line", 1, p.minor ? 4 : 5);
                }),
        Recipe.of(Technique.TENSION_TONE, ANY, CHORUS_CHORDS, CHORUS_TUNE)
            .besides(Technique.REINTERPRETED_TONE)
            .chords(p -> p.chorus.chords(p.minor ? "Am|C|F|Am|Dm|F|Em|Am" : "C|Em|F|Am|Dm|Am|G|C"))
            .tune(
                p -> {
                  // b over the chord of F: its raised fourth; c after it
                  p.chorus.tune.set(2, held(71, 7));
                  p.chorus.tune.get(3)[0] = 72;
                  p.chorus.plant("tension-tone", 3, 3);
                }),
        Recipe.of(Technique.REINTERPRETED_TONE, ANY, CHORUS_CHORDS, CHORUS_TUNE)
            .besides(Technique.TENSION_TONE)
            .chords(p -> p.chorus.chords(p.minor ? "Am|C|F|Em|Dm|Am|Em|Am" : "C|Am|F|Em|Dm|Am|G|C"))
            .tune(
                p -> {
                  p.chorus.tune.set(2, held(71, 8));
                  int[] on = held(71, 6);
                  on[0] = Passage.HOLD;
                  p.chorus.tune.set(3, on);
                  p.chorus.plant("reinterpreted-tone", 3, 4);
                }),
        Recipe.of(Technique.DECEPTIVE_CADENCE, MAJOR, CHORUS_CHORDS, SECOND_CHORUS)
            .besides(Technique.BROKEN_LOOP)
            .arrange(
                p -> {
                  Passage second = p.last("B");
                  second.chords.set(7, "Am");
                  second.tune.set(7, held(72, 4));
                  second.plant("deceptive-cadence", 7, 8);
                }),
        Recipe.of(Technique.HALF_CADENCE, ANY, VERSE_CHORDS, VERSE_TUNE)
            .besides(Technique.HARMONIC_MINOR_DOMINANT)
            .chords(
                p -> {
                  p.mode = p.minor ? "harmonic-minor" : p.mode;
                  p.verse.chords(p.minor ? "Am|F|C|Dm|Am|F|E|E" : "C|Am|F|Dm|C|Dm|G|G");
                  p.verse.plant("half-cadence", 7, 8);
                })
            .tune(p -> p.verse.tune.set(7, new int[Passage.SLOTS])),
        Recipe.of(Technique.PLAGAL_CHAIN, MAJOR, VERSE_CHORDS)
            .besides(Technique.BORROWED_CHORD, Technique.MODAL_COLOUR)
            .chords(
                p -> {
                  verse(p, "C|Am|Dm|Am|C|Bb|F|C", "C|Dm|Am|Ab|Eb|Bb|F|C");
                  p.verse.plant("plagal-chain", p.verse.chords.contains("Ab") ? 4 : 5, 8);
                }),
        Recipe.of(Technique.UNRESOLVED_ENDING, ANY, ENDING)
            .arrange(
                p -> {
                  p.ending().chords("F|F|F");
                  p.ending().plant("unresolved-ending");
                }),
        Recipe.of(Technique.KEY_LIFT, ANY, BRIDGE, ENDING)
            .besides(Technique.MODULATION)
            .form(
                p -> {
                  Passage lifted = p.chorus.copy();
                  lifted.up = p.any(List.of("minor-second", "major-second"));
                  lifted.plant("key-lift");
                  p.ending().up = lifted.up;
                  p.sections.add(p.sections.size() - 1, lifted);
                }),
        Recipe.of(Technique.MODULATION, ANY, BRIDGE)
            .besides(Technique.MODULATION)
            .form(
                p -> {
                  Passage bridge = Bridges.plain(p);
                  // Confirmed by a cadence: in minor, too, the dominant has its leading tone.
                  // Whoever
                  // hears the relative major calls it a secondary dominant.
                  if (p.minor) {
                    bridge.chords.replaceAll(chord -> chord.equals("Em") ? "E" : chord);
                    p.arguable.add(Technique.HARMONIC_MINOR_DOMINANT);
                    p.arguable.add(Technique.SECONDARY_DOMINANT);
                  }
                  bridge.up = "minor-third";
                  bridge.plant("modulation");
                  p.sections.add(p.sections.size() - 1, bridge);
                  p.sections.add(p.sections.size() - 1, p.chorus.copy());
                }),
        Recipe.of(Technique.CHORD_LOOP, ANY, VERSE_CHORDS)
            .besides(Technique.HARMONIC_RHYTHM_CHANGE)
            .chords(
                p -> {
                  String loop = p.minor ? "Am F|C G" : p.any(List.of("C G|Am F", "C Am|F G"));
                  p.verse.chords(String.join("|", loop, loop, loop, loop));
                  p.verse.plant("chord-loop");
                }),
        Recipe.of(Technique.BROKEN_LOOP, MAJOR, VERSE_CHORDS, SECOND_VERSE)
            .besides(
                Technique.CHORD_LOOP,
                Technique.BORROWED_CHORD,
                Technique.MODAL_COLOUR,
                Technique.HALF_CADENCE,
                Technique.SURPRISING_CHORD)
            .chords(p -> p.verse.chords("C|Am|F|G|C|Am|F|G"))
            .arrange(
                p -> {
                  Passage second = p.last("A");
                  second.chords.set(6, "Ab");
                  second.chords.set(7, "Bb");
                  second.tune.set(6, held(72, 6));
                  second.tune.set(7, held(70, 4));
                  second.plant("broken-loop", 5, 8);
                }),
        Recipe.of(Technique.SURPRISING_CHORD, MAJOR, CHORUS_CHORDS)
            .besides(Technique.SECONDARY_DOMINANT, Technique.BORROWED_CHORD, Technique.MODAL_COLOUR)
            .chords(
                p -> {
                  chorus(p, "C|G|F|Am|F#|F|G|C", "C|Am|F|Em|B|F|G|C");
                  p.chorus.plant("surprising-chord", 5, 5);
                }));
  }

  private static void innerLine(Plan p) {
    p.chorus.chords(p.minor ? "Am|Am(maj7)|Am7|Am6|F|Dm|Em|Am" : "C|Caug|C6|C7|F|Dm|G|C");
    int[] line = p.minor ? new int[] {69, 68, 67, 66} : new int[] {67, 68, 69, 70};
    StringBuilder text = new StringBuilder("plays |");
    for (int pitch : line) {
      text.append(" {%d} - {%d} - {%d} - {%d} - |".formatted(pitch, pitch, pitch, pitch));
    }
    p.chorus.parts.put("string", text.append(" . | . | . | . |").toString());
    p.chorus.plant("chromatic-inner-line", 1, 4);
  }

  private static void verse(Plan p, String... choices) {
    p.verse.chords(p.any(List.of(choices)));
  }

  private static void chorus(Plan p, String... choices) {
    p.chorus.chords(p.any(List.of(choices)));
  }

  /** One note held over so many slots, then a breath. */
  static int[] held(int pitch, int slots) {
    int[] bar = new int[Passage.SLOTS];
    Arrays.fill(bar, 0, slots, Passage.HOLD);
    bar[0] = pitch;
    return bar;
  }
}
