package undersong.bench.plant;

import static undersong.bench.plant.Recipe.Slot.BASS;
import static undersong.bench.plant.Recipe.Slot.BRIDGE;
import static undersong.bench.plant.Recipe.Slot.CHORUS_CHORDS;
import static undersong.bench.plant.Recipe.Slot.DRUMS;
import static undersong.bench.plant.Recipe.Slot.INTO_CHORUS;
import static undersong.bench.plant.Recipe.Slot.KEYS;
import static undersong.bench.plant.Recipe.Slot.SECOND_VERSE;
import static undersong.bench.plant.Recipe.Slot.VERSE_CHORDS;
import static undersong.bench.plant.Recipe.Tonality.ANY;

import java.util.List;
import undersong.technique.Technique;

/** How time is played with. */
final class RhythmRecipes {
  private static final String MAJOR_WALTZ =
      "plays | {64} - {67} - {64} - | {65} - {69} - {72} - | {71} - {67} - {62} - | {64} - - - . . |";
  private static final String MINOR_WALTZ =
      "plays | {69} - {72} - {69} - | {65} - {69} - {72} - | {71} - {67} - {64} - | {69} - - - . . |";

  private RhythmRecipes() {}

  static List<Recipe> all() {
    return List.of(
        Recipe.of(Technique.ANTICIPATED_CHANGES, ANY, CHORUS_CHORDS, KEYS)
            .arrange(
                p ->
                    p.copies("B")
                        .forEach(
                            s -> {
                              s.earlyBeats = 0.5;
                              s.plant("anticipated-changes");
                            })),
        Recipe.of(Technique.SYNCOPATED_BASS, ANY, BASS)
            .arrange(
                p ->
                    p.copies("A")
                        .forEach(
                            s -> {
                              s.parts.put("bass", "follows x..x.x.x");
                              s.plant("syncopated-bass");
                            })),
        Recipe.of(Technique.THREE_THREE_TWO, ANY, BASS, KEYS)
            .besides(Technique.SYNCOPATED_BASS)
            .arrange(
                p ->
                    p.copies("A")
                        .forEach(
                            s -> {
                              s.parts.put("bass", "follows x--x--x-");
                              s.parts.put("keys", "follows X--X--X-");
                              s.parts.put("hat", "follows x.x.x.x.");
                              s.plant("three-three-two");
                            })),
        Recipe.of(Technique.HALF_TIME_FEEL, ANY, DRUMS, SECOND_VERSE)
            .arrange(
                p -> {
                  Passage second = p.last("A");
                  second.parts.put("kick", "follows x.....x.");
                  second.parts.put("snare", "follows ....X...");
                  second.plant("half-time-feel");
                }),
        Recipe.of(Technique.STOP_TIME, ANY, INTO_CHORUS, SECOND_VERSE, DRUMS, KEYS, BASS)
            .arrange(RhythmRecipes::stop),
        Recipe.of(Technique.METER_CHANGE, ANY, BRIDGE)
            .besides(Technique.IRREGULAR_PHRASE)
            .form(
                p -> {
                  Passage bridge = Bridges.plain(p);
                  bridge.chords(p.minor ? "Am|F|Em|Am" : "C|F|G|C");
                  bridge.tune.clear();
                  bridge.beatsPerBar = 3;
                  bridge.parts.put("lead", p.minor ? MINOR_WALTZ : MAJOR_WALTZ);
                  bridge.parts.put("keys", "follows x-x-x-");
                  bridge.parts.put("bass", "follows x---x-");
                  bridge.parts.put("kick", "follows x.....");
                  bridge.parts.put("snare", "follows ..x.x.");
                  bridge.parts.put("hat", "follows xxxxxx");
                  bridge.plant("meter-change");
                  p.sections.add(p.sections.size() - 1, bridge);
                  p.sections.add(p.sections.size() - 1, p.chorus.copy());
                }),
        Recipe.of(Technique.TEMPO_CHANGE, ANY, BRIDGE)
            .form(
                p -> {
                  Passage bridge = Bridges.plain(p);
                  bridge.tempoFactor = p.chance.nextBoolean() ? 0.85 : 1.15;
                  bridge.plant("tempo-change", 1, 2);
                  p.sections.add(p.sections.size() - 1, bridge);
                  Passage after = p.chorus.copy();
                  after.plant("tempo-change", 1, 2);
                  p.sections.add(p.sections.size() - 1, after);
                }),
        Recipe.of(Technique.HARMONIC_RHYTHM_CHANGE, ANY, VERSE_CHORDS, CHORUS_CHORDS)
            .chords(
                p -> {
                  p.verse.chords(p.minor ? "Am|Am|F|F|Dm|Dm|Am|Am" : "C|C|Am|Am|Dm|Dm|C|C");
                  p.chorus.chords(
                      p.minor
                          ? "Am C|Dm F|C Em|F Am|Dm Am|C F|Dm Em|Am"
                          : "C Em|F Am|Dm G|C Am|F Dm|C F|Am G|C");
                  p.chorus.plant("harmonic-rhythm-change");
                }),
        Recipe.of(Technique.IRREGULAR_PHRASE, ANY, BRIDGE)
            .form(
                p -> {
                  Passage third = p.chorus.copy();
                  int more = 1 + p.chance.nextInt(2);
                  for (int i = 0; i < more; i++) {
                    third.chords.add(third.chords.get(7));
                    third.tune.add(new int[Passage.SLOTS]);
                  }
                  third.plant("irregular-phrase");
                  p.sections.add(p.sections.size() - 1, third);
                }));
  }

  /** Everything stops on the third beat of the last bar. */
  private static void stop(Plan p) {
    Passage second = p.last("A");
    int bars = second.bars();
    String[] parts = {"keys", "bass", "kick", "snare", "hat"};
    for (String part : parts) {
      String usual = second.parts.getOrDefault(part, Composer.usual(p, part)).substring(8);
      String stopped = usual.split("\\|", -1)[0].substring(0, 3) + ".....";
      String text = String.join("|", java.util.Collections.nCopies(bars - 1, usual));
      second.parts.put(part, "follows " + text + "|" + stopped);
    }
    second.tune.set(bars - 1, HarmonyRecipes.held(second.tune.get(bars - 1)[0], 3));
    if (second.tune.get(bars - 1)[0] <= 0) {
      second.tune.set(bars - 1, new int[Passage.SLOTS]);
    }
    second.plant("stop-time", bars, bars);
  }
}
