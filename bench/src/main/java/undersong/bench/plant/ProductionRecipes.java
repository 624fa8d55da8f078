package undersong.bench.plant;

import static undersong.bench.plant.Recipe.Slot.DRUMS;
import static undersong.bench.plant.Recipe.Slot.GUITAR;
import static undersong.bench.plant.Recipe.Slot.INTO_CHORUS;
import static undersong.bench.plant.Recipe.Slot.LINE;
import static undersong.bench.plant.Recipe.Slot.OPENING;
import static undersong.bench.plant.Recipe.Slot.PAD;
import static undersong.bench.plant.Recipe.Slot.SECOND;
import static undersong.bench.plant.Recipe.Slot.SECOND_CHORUS;
import static undersong.bench.plant.Recipe.Slot.SECOND_VERSE;
import static undersong.bench.plant.Recipe.Slot.SUB;
import static undersong.bench.plant.Recipe.Slot.VERSE_TUNE;
import static undersong.bench.plant.Recipe.Tonality.ANY;

import java.util.List;
import undersong.technique.Technique;

/** How sound and space are planted. */
final class ProductionRecipes {
  private ProductionRecipes() {}

  static List<Recipe> all() {
    return List.of(
        Recipe.of(Technique.ALTERNATING_PAN, ANY, LINE)
            .besides(Technique.PLUCKED_LAYER)
            .arrange(
                p ->
                    p.copies("B")
                        .forEach(
                            s -> {
                              s.parts.put("pluck", "follows 1.2.3.2.");
                              s.mixes.put("pluck", "sway 0.8");
                              s.plant("alternating-pan");
                            })),
        Recipe.of(Technique.WIDE_DOUBLE, ANY, GUITAR)
            .besides(Technique.WIDTH_CHANGE, Technique.BREAKOUT_CHORUS)
            .arrange(
                p ->
                    p.copies("B")
                        .forEach(
                            s -> {
                              s.parts.put("guitar", "follows x---x---");
                              s.mixes.put("guitar", "double 0.85");
                              s.plant("wide-double");
                            })),
        Recipe.of(Technique.ECHO, ANY, LINE)
            .arrange(
                p -> {
                  String lag = p.any(List.of("0.75", "1", "1.5"));
                  p.copies("A")
                      .forEach(
                          s -> {
                            s.parts.put("horn", "plays " + stabs(s, p));
                            s.mixes.put("horn", "echo %s echo-fall 6".formatted(lag));
                            s.plant("echo");
                          });
                }),
        Recipe.of(Technique.DELAY_THROW, ANY, VERSE_TUNE)
            .arrange(
                p -> {
                  Passage first = p.first("A");
                  first.tune.set(3, new int[Passage.SLOTS]);
                  first.tune.get(3)[0] = first.tune.get(7)[0];
                  first.parts.put("throw", "4");
                  first.mixes.put("lead", "throw 1 echo-fall 6");
                  first.plant("delay-throw", 4, 4);
                }),
        Recipe.of(Technique.RESUNG_ECHO, ANY, SECOND, VERSE_TUNE)
            .besides(
                Technique.CALL_AND_RESPONSE,
                Technique.VOCAL_STACK,
                Technique.TENSION_TONE,
                Technique.REINTERPRETED_TONE)
            .tune(ProductionRecipes::resung),
        Recipe.of(Technique.WIDTH_CHANGE, ANY, PAD)
            .besides(Technique.BREAKOUT_CHORUS, Technique.WIDE_DOUBLE)
            .arrange(
                p ->
                    p.copies("B")
                        .forEach(
                            s -> {
                              s.parts.put("pad", "follows held");
                              s.mixes.put("pad", "double 0.95 level -6");
                              s.plant("width-change");
                            })),
        Recipe.of(Technique.FILTER_SWEEP, ANY, OPENING)
            .besides(Technique.RIFF, Technique.BUILD, Technique.SUB_BASS_ENTRY)
            .arrange(
                p -> {
                  Passage intro = MelodyRecipes.opening(p);
                  intro.parts.put("riff", "plays |" + MelodyRecipes.figure(p) + " |");
                  intro.mixes.put("riff", "sweep-from 300 sweep-to 8000");
                  intro.parts.put("pad", "follows held");
                  intro.mixes.put("pad", "sweep-from 250 sweep-to 7000 level -8");
                  FormRecipes.rest(intro, "keys", "bass", "kick", "snare", "hat");
                  intro.plant("filter-sweep");
                }),
        Recipe.of(Technique.RISER, ANY, INTO_CHORUS)
            .besides(Technique.BUILD)
            .arrange(
                p ->
                    p.copies("A")
                        .forEach(
                            s -> {
                              String still = " . |".repeat(s.bars() - 4);
                              s.parts.put(
                                  "rise",
                                  "plays |" + still + " x - - - " + "| - - - - ".repeat(3) + "|");
                              s.plant("riser", s.bars() - 3, s.bars());
                            })),
        Recipe.of(Technique.SWELL, ANY, INTO_CHORUS)
            .besides(Technique.RISER)
            .arrange(
                p ->
                    p.copies("A")
                        .forEach(
                            s -> {
                              String still = " . |".repeat(s.bars() - 1);
                              s.parts.put("swell", "plays |" + still + " x - - - |");
                              s.plant("swell", s.bars(), s.bars());
                            })),
        Recipe.of(Technique.SUB_BASS_ENTRY, ANY, SUB)
            .chords(p -> p.partSettings.put("bass range", "E2..D#3"))
            .arrange(
                p ->
                    p.copies("B")
                        .forEach(
                            s -> {
                              s.parts.put("sub", "follows held");
                              s.plant("sub-bass-entry");
                            })),
        Recipe.of(Technique.DRUM_DROPOUT, ANY, DRUMS, SECOND_VERSE)
            .arrange(
                p -> {
                  Passage second = p.last("A");
                  for (String part : List.of("kick", "snare", "hat")) {
                    String usual = Composer.usual(p, part).substring(8);
                    String away = ".".repeat(usual.length());
                    String all =
                        String.join("|", usual, usual, usual, usual, away, away, usual, usual);
                    second.parts.put(part, "follows " + all);
                  }
                  second.plant("drum-dropout", 5, 6);
                }),
        Recipe.of(Technique.DUCKING, ANY, PAD, DRUMS)
            .besides(Technique.WIDTH_CHANGE)
            .arrange(
                p ->
                    p.copies("B")
                        .forEach(
                            s -> {
                              s.parts.put("pad", "follows held");
                              s.mixes.put("pad", "duck 12 level -4");
                              s.parts.put("keys", "follows x-------");
                              s.mixes.put("keys", "duck 8");
                              s.parts.put("kick", "follows x.x.x.x.");
                              s.plant("ducking");
                            })),
        Recipe.of(Technique.PLUCKED_LAYER, ANY, LINE, SECOND_VERSE)
            .besides(Technique.LAYERED_REPEAT)
            .arrange(
                p -> {
                  Passage second = p.last("A");
                  second.parts.put("pluck", "follows 1.3.2.3.");
                  second.plant("plucked-layer");
                }),
        Recipe.of(Technique.VOCAL_STACK, ANY, SECOND, SECOND_CHORUS)
            .besides(Technique.PARALLEL_HARMONY, Technique.LAYERED_REPEAT, Technique.TENSION_TONE)
            .arrange(
                p -> {
                  Passage last = p.last("B");
                  last.parts.put("second", MelodyRecipes.second(last, MelodyRecipes::thirdBelow));
                  last.plant("vocal-stack");
                }));
  }

  /** One stab every other bar, on the chord. */
  private static String stabs(Passage s, Plan p) {
    StringBuilder text = new StringBuilder("|");
    for (int bar = 0; bar < s.bars(); bar++) {
      boolean[] tones = TuneMaker.tones(s.chords.get(bar).split(" +", -1)[0]);
      int pitch = 72 + p.chance.nextInt(5);
      while (!tones[pitch % 12]) {
        pitch++;
      }
      text.append(bar % 2 == 1 ? " {%d} . . . |".formatted(pitch) : " . |");
    }
    return text.toString();
  }

  /** What is sung in bars 1 and 5 comes again, sung by another, in bars 2 and 6. */
  private static void resung(Plan p) {
    StringBuilder text = new StringBuilder("plays |");
    for (int bar = 0; bar < 8; bar++) {
      boolean again = bar == 1 || bar == 5;
      text.append(again ? " " + Composer.bar(p.verse.tune.get(bar - 1)) + " |" : " . |");
    }
    p.verse.tune.set(1, new int[Passage.SLOTS]);
    p.verse.tune.set(5, new int[Passage.SLOTS]);
    p.verse.parts.put("second", text.toString());
    p.verse.mixes.put("second", "pan 0.55 loose 24 untuned 12 level -7");
    p.verse.plant("resung-echo", 1, 2);
    p.verse.plant("resung-echo", 5, 6);
  }
}
