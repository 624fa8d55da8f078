package undersong.bench.plant;

import static undersong.bench.plant.Recipe.Slot.BRIDGE;
import static undersong.bench.plant.Recipe.Slot.CHORUS_TUNE;
import static undersong.bench.plant.Recipe.Slot.DRUMS;
import static undersong.bench.plant.Recipe.Slot.ENDING;
import static undersong.bench.plant.Recipe.Slot.GUITAR;
import static undersong.bench.plant.Recipe.Slot.INTO_CHORUS;
import static undersong.bench.plant.Recipe.Slot.LEVELS;
import static undersong.bench.plant.Recipe.Slot.OPENING;
import static undersong.bench.plant.Recipe.Slot.PAD;
import static undersong.bench.plant.Recipe.Slot.SECOND_CHORUS;
import static undersong.bench.plant.Recipe.Slot.SECOND_VERSE;
import static undersong.bench.plant.Recipe.Tonality.ANY;

import java.util.List;
import undersong.technique.Technique;

/** How the drama of a form is planted. */
final class FormRecipes {
  private FormRecipes() {}

  static List<Recipe> all() {
    return List.of(
        Recipe.of(Technique.CLIMAX_AT_END, ANY, BRIDGE, LEVELS, GUITAR, ENDING)
            .besides(
                Technique.BREAKOUT_CHORUS,
                Technique.MELODIC_PEAK,
                Technique.WIDE_DOUBLE,
                Technique.WIDTH_CHANGE,
                Technique.REGISTER_LIFT)
            .form(FormRecipes::climax),
        Recipe.of(Technique.LAYERED_REPEAT, ANY, SECOND_VERSE, PAD)
            .arrange(
                p -> {
                  Passage second = p.last("A");
                  second.parts.put(p.any(List.of("organ", "pad")), "follows held");
                  second.plant("layered-repeat");
                }),
        Recipe.of(Technique.DROP_CHORUS, ANY, SECOND_CHORUS, BRIDGE, DRUMS)
            .besides(
                Technique.DRUM_DROPOUT,
                Technique.LAYERED_REPEAT,
                Technique.BREAKOUT_CHORUS,
                Technique.SUB_BASS_ENTRY,
                Technique.BUILD)
            .form(p -> p.sections.add(p.sections.size() - 1, p.chorus.copy()))
            .arrange(
                p -> {
                  List<Passage> copies = p.copies("B");
                  Passage thin = copies.get(copies.size() - 2);
                  thin.parts.clear();
                  rest(thin, "bass", "kick", "snare", "hat");
                  thin.parts.put("keys", "follows x-------");
                  thin.plant("drop-chorus");
                }),
        Recipe.of(Technique.BREAKOUT_CHORUS, ANY, LEVELS, GUITAR, CHORUS_TUNE)
            .besides(
                Technique.REGISTER_LIFT,
                Technique.WIDE_DOUBLE,
                Technique.WIDTH_CHANGE,
                Technique.LAYERED_REPEAT)
            .tune(
                p ->
                    new TuneMaker(p.chance, Composer.LOWEST + 7, Composer.HIGHEST + 6)
                        .write(p.chorus, Composer.WHITE_KEYS))
            .arrange(
                p ->
                    p.copies("B")
                        .forEach(
                            s -> {
                              full(s);
                              s.plant("breakout-chorus");
                            })),
        Recipe.of(Technique.BUILD, ANY, INTO_CHORUS, DRUMS)
            .besides(
                Technique.DRUM_DROPOUT,
                Technique.RISER,
                Technique.SUB_BASS_ENTRY,
                Technique.HARMONIC_RHYTHM_CHANGE)
            .form(FormRecipes::build),
        Recipe.of(Technique.CHORUS_FIRST, ANY, OPENING)
            .form(
                p -> {
                  Passage first = p.chorus.copy();
                  first.plant("chorus-first");
                  p.sections.add(0, first);
                }),
        Recipe.of(Technique.COLD_ENDING, ANY, ENDING)
            .arrange(
                p -> {
                  Passage end = p.ending();
                  end.chords(end.chords.get(0));
                  end.tune.clear();
                  end.tune.add(new int[Passage.SLOTS]);
                  end.parts.put("keys", "follows X-......");
                  end.parts.put("bass", "follows x-......");
                  end.parts.put("kick", "follows X.......");
                  end.parts.put("snare", "follows X.......");
                  end.plant("cold-ending");
                }),
        Recipe.of(Technique.FADE_OUT, ANY, ENDING)
            .form(
                p -> {
                  p.sections.remove(p.sections.size() - 1);
                  Passage last = p.chorus.copy();
                  p.sections.add(last);
                  p.fadeBars = 7;
                  last.plant("fade-out", 3, 8);
                }));
  }

  private static void climax(Plan p) {
    Passage climax = Bridges.plain(p);
    new TuneMaker(p.chance, Composer.LOWEST + 8, Composer.HIGHEST + 8)
        .write(climax, Composer.WHITE_KEYS);
    full(climax);
    climax.parts.put("organ", "follows held");
    climax.parts.put("hat", "follows xxxxxxxxxxxxxxxx");
    climax.parts.put("cymbal", "follows x...x...");
    climax.plant("climax-at-end");
    p.sections.add(p.sections.size() - 1, climax);
  }

  /** Two takes of guitar left and right, an open high hat, a crash. */
  private static void full(Passage s) {
    s.parts.put("guitar", "follows x-x-x-x-");
    s.mixes.put("guitar", "double 0.85 level -7");
    s.parts.put("open", "follows .x.x.x.x");
    s.parts.put("cymbal", "follows x.......|........|........|........");
    s.parts.put("pad", "follows held");
    s.mixes.put("pad", "double 0.8 level -12");
  }

  private static void build(Plan p) {
    String one = p.minor ? "Am|Am|Em|Em" : "F|F|G|G";
    p.arguable.add(Technique.HALF_CADENCE); // two bars of dominant, and nobody sings
    int chorus = p.sections.indexOf(p.copies("B").get(p.copies("B").size() - 1));
    Passage before = new Passage("prechorus", "P", one);
    for (int bar = 0; bar < 4; bar++) {
      before.tune.add(new int[Passage.SLOTS]);
    }
    before.parts.put("keys", "follows x-------|x-------|x-x-x-x-|XXXXXXXX");
    before.parts.put("bass", "follows ........|........|x-x-x-x-|xxxxxxxx");
    before.parts.put("kick", "follows ........|........|x.x.x.x.|xxxxxxxx");
    before.parts.put(
        "snare", "follows ................|................|x.x.x.x.x.x.x.x.|XXXXXXXXXXXXXXXX");
    before.parts.put("hat", "follows ........|x.x.x.x.|xxxxxxxx|xxxxxxxx");
    before.plant("build");
    p.sections.add(chorus, before);
  }

  static void rest(Passage s, String... parts) {
    for (String part : parts) {
      s.parts.put(part, "rests");
    }
  }
}
