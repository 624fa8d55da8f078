package undersong.lesson.sketch;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import undersong.technique.Technique;

/** Shapes by technique, each with what may vary in it drawn anew. */
final class Shapes {
  private static final Map<Technique, Function<RandomGenerator, Shape>> SHAPES = new TreeMap<>();

  static {
    HarmonyShapes.addTo(SHAPES);
    TuneShapes.addTo(SHAPES);
    RhythmShapes.addTo(SHAPES);
    ProductionShapes.addTo(SHAPES);
    ArrangedShapes.addTo(SHAPES);
  }

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

  static String any(RandomGenerator random, String... choices) {
    return choices[random.nextInt(choices.length)];
  }

  /** Four bars in major that ask for no explanation. */
  static String major(RandomGenerator r) {
    return any(r, "I | vi | IV | V", "I | IV | ii | V", "I | iii | IV | V", "I | ii | IV | V");
  }
}
