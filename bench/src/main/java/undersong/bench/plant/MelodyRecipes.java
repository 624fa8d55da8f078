package undersong.bench.plant;

import static undersong.bench.plant.Recipe.Slot.CHORUS_TUNE;
import static undersong.bench.plant.Recipe.Slot.LINE;
import static undersong.bench.plant.Recipe.Slot.OPENING;
import static undersong.bench.plant.Recipe.Slot.SECOND;
import static undersong.bench.plant.Recipe.Slot.SECOND_CHORUS;
import static undersong.bench.plant.Recipe.Slot.VERSE_CHORDS;
import static undersong.bench.plant.Recipe.Slot.VERSE_TUNE;
import static undersong.bench.plant.Recipe.Tonality.ANY;

import java.util.List;
import java.util.function.IntUnaryOperator;
import undersong.technique.Technique;

/** How figures, registers and further voices are planted. */
final class MelodyRecipes {
  private MelodyRecipes() {}

  static List<Recipe> all() {
    return List.of(
        Recipe.of(Technique.PATTERN_SEQUENCE, ANY, VERSE_CHORDS, VERSE_TUNE)
            .chords(p -> p.verse.chords(p.minor ? "F|Em|Dm|Am|C|F|Em|Am" : "F|Em|Dm|C|Am|F|G|C"))
            .tune(MelodyRecipes::sequence),
        Recipe.of(Technique.RIFF, ANY, OPENING)
            .arrange(
                p -> {
                  Passage intro = opening(p);
                  intro.parts.put("riff", "plays |" + (figure(p) + " |").repeat(4));
                  intro.plant("riff");
                }),
        Recipe.of(Technique.PARALLEL_HARMONY, ANY, SECOND, SECOND_CHORUS)
            .besides(Technique.VOCAL_STACK, Technique.LAYERED_REPEAT, Technique.TENSION_TONE)
            .arrange(
                p -> {
                  Passage last = p.last("B");
                  last.parts.put("second", second(last, MelodyRecipes::thirdBelow));
                  last.plant("parallel-harmony");
                }),
        Recipe.of(Technique.OCTAVE_DOUBLING, ANY, SECOND, SECOND_CHORUS)
            .besides(Technique.VOCAL_STACK, Technique.LAYERED_REPEAT)
            .arrange(
                p -> {
                  Passage last = p.last("B");
                  last.parts.put("second", second(last, pitch -> pitch + 12));
                  last.mixes.put("second", "loose 12 untuned 6");
                  last.plant("octave-doubling");
                }),
        Recipe.of(Technique.REGISTER_LIFT, ANY, CHORUS_TUNE)
            .tune(
                p -> {
                  new TuneMaker(p.chance, Composer.LOWEST + 7, Composer.HIGHEST + 6)
                      .write(p.chorus, Composer.WHITE_KEYS);
                  p.chorus.plant("register-lift");
                }),
        Recipe.of(Technique.CALL_AND_RESPONSE, ANY, VERSE_TUNE, LINE).tune(MelodyRecipes::answers),
        Recipe.of(Technique.MELODIC_PEAK, ANY, SECOND_CHORUS, CHORUS_TUNE)
            .arrange(
                p -> {
                  Passage last = p.last("B");
                  int top = Composer.HIGHEST + 3;
                  boolean[] tones = TuneMaker.tones(last.chords.get(5).split(" +", -1)[0]);
                  while (!tones[top % 12]) {
                    top++;
                  }
                  last.tune.set(5, HarmonyRecipes.held(top, 6));
                  last.plant("melodic-peak", 6, 6);
                }),
        Recipe.of(Technique.LAYER_FOLLOWS, ANY, OPENING, LINE)
            .besides(Technique.RIFF, Technique.CALL_AND_RESPONSE)
            .arrange(
                p -> {
                  Passage intro = opening(p);
                  String figure = "|%s |%s |".formatted(figure(p), figure(p));
                  intro.parts.put("string", "plays " + figure + " . | . |");
                  intro.parts.put("horn", "plays | . | . " + figure);
                  intro.plant("layer-follows", 3, 4);
                }));
  }

  /** Four bars on the tonic before everything else. */
  static Passage opening(Plan p) {
    String tonic = p.minor ? "Am" : "C";
    Passage intro = new Passage("intro", "I", String.join("|", tonic, tonic, tonic, tonic));
    for (int bar = 0; bar < 4; bar++) {
      intro.tune.add(new int[Passage.SLOTS]);
    }
    p.sections.add(0, intro);
    return intro;
  }

  /** The words of one bar, from the five notes that fit everywhere. */
  static String figure(Plan p) {
    int[] five = {60, 62, 64, 67, 69, 72};
    List<String> rhythms = List.of("x-xxx-x-", "xx-xx-x-", "x-x-xxxx", "xxx-xx--");
    String rhythm = p.any(rhythms);
    StringBuilder bar = new StringBuilder();
    int at = p.chance.nextInt(five.length);
    for (int slot = 0; slot < rhythm.length(); slot++) {
      char mark = rhythm.charAt(slot);
      int step = p.chance.nextBoolean() ? 1 : -1;
      at = Math.floorMod(at + step, five.length);
      bar.append(mark == 'x' ? " {%d}".formatted(five[at]) : " -");
    }
    return bar.toString();
  }

  /** A cell over the chord's root, carried down with it. */
  private static void sequence(Plan p) {
    int[] cell = p.any(List.of(new int[] {12, 11, 7, 4}, new int[] {7, 4, 5, 9}));
    int[] slots = {0, 2, 3, 4};
    int[] roots = {65, 64, 62};
    for (int bar = 0; bar < 3; bar++) {
      int[] notes = HarmonyRecipes.held(0, 7);
      for (int i = 0; i < cell.length; i++) {
        notes[slots[i]] = white(roots[bar], cell[i]);
      }
      p.verse.tune.set(bar, notes);
    }
    if (cell[cell.length - 1] == 9) {
      p.arguable.add(Technique.TENSION_TONE); // the cell comes to rest on the sixth
    }
    p.verse.plant("pattern-sequence", 1, 3);
  }

  /** The white key nearest to so many semitones above another. */
  private static int white(int root, int semitones) {
    int steps = new int[] {0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6, 7}[semitones];
    int pitch = root;
    for (int i = 0; i < steps; i++) {
      do {
        pitch++;
      } while (!Composer.WHITE_KEYS[pitch % 12]);
    }
    return pitch;
  }

  private static void answers(Plan p) {
    StringBuilder horn = new StringBuilder("plays");
    for (int bar = 0; bar < p.verse.bars(); bar++) {
      int[] tune = p.verse.tune.get(bar);
      if (bar % 2 == 0) {
        tune[6] = Passage.REST;
        tune[7] = Passage.REST;
        horn.append(" | .");
      } else {
        int[] answer = HarmonyRecipes.held(0, 6);
        boolean[] tones = TuneMaker.tones(p.verse.chords.get(bar).split(" +", -1)[0]);
        int pitch = 64 + p.chance.nextInt(6);
        for (int slot : new int[] {0, 2, 3 + p.chance.nextInt(2)}) {
          while (!tones[pitch % 12]) {
            pitch++;
          }
          answer[slot] = pitch;
          pitch = pitch > 69 ? pitch - 7 : pitch + 2;
        }
        p.verse.tune.set(bar, new int[Passage.SLOTS]);
        horn.append(" | ").append(Composer.bar(answer));
      }
    }
    p.verse.parts.put("horn", horn + " |");
    p.verse.plant("call-and-response");
  }

  static String second(Passage passage, IntUnaryOperator move) {
    StringBuilder text = new StringBuilder("plays");
    for (int[] bar : passage.tune) {
      int[] moved = bar.clone();
      for (int i = 0; i < moved.length; i++) {
        moved[i] = moved[i] > 0 ? move.applyAsInt(moved[i]) : moved[i];
      }
      text.append(" | ").append(Composer.bar(moved));
    }
    return text + " |";
  }

  /** The white key two steps below. */
  static int thirdBelow(int pitch) {
    int below = pitch;
    for (int step = 0; step < 2; step++) {
      do {
        below--;
      } while (!Composer.WHITE_KEYS[below % 12]);
    }
    return below;
  }
}
