package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.KeyMetrics;
import undersong.bench.metrics.Timed;
import undersong.bench.peers.Program;
import undersong.bench.render.Truth;
import undersong.estimate.key.ChordKeyEstimator;
import undersong.estimate.key.KeySettings;
import undersong.feature.Features;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.Reading;

/**
 * Tries weights of the ear and prices of a change of key on tuning songs and prints what each
 * gives. {@code ./measure charts} says what the prices do on charts: few songs here change their
 * key.
 */
public final class KeyFit {
  private static final double[] EAR_WEIGHTS = {0, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.5};
  private static final double[] SECTION_COSTS = {1.5, 2, 2.5, 3, 4};

  private KeyFit() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets, "plant-tune" too
   */
  public static void main(String[] arguments) throws IOException {
    KeySettings standard = KeySettings.DEFAULTS;
    Map<String, KeySettings> tried = new LinkedHashMap<>();
    tried.put("as it stands", standard);
    for (double ear : EAR_WEIGHTS) {
      tried.put("ear " + ear, with(standard, ear, standard.changeAtSection()));
    }
    for (double cost : SECTION_COSTS) {
      tried.put("change " + cost, with(standard, standard.earWeight(), Math.exp(-cost)));
    }
    Map<String, Map<String, List<Score>>> scores = new LinkedHashMap<>();
    tried.keySet().forEach(name -> scores.put(name, new TreeMap<>()));
    TuningSong.eachOf(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        (set, truth, id, studied, features) ->
            tried.forEach(
                (name, settings) ->
                    scores
                        .get(name)
                        .computeIfAbsent(set, key -> new ArrayList<>())
                        .add(Score.of(truth, studied.stored().reading(), features, settings))));
    scores.forEach((name, sets) -> sets.forEach((set, of) -> print(name, set, of)));
  }

  private static KeySettings with(KeySettings s, double ear, double changeAtSection) {
    return new KeySettings(ear, changeAtSection, s.changeElsewhere(), s.changeAtLift());
  }

  /**
   * @param changes true ones
   * @param told changes
   */
  private record Score(double weighted, double name, int changes, int told) {
    static Score of(Truth truth, Reading reading, Features features, KeySettings settings) {
      Reading keyed =
          reading.with(
              Facet.KEYS,
              new ChordKeyEstimator(settings).estimate(features, reading, Corrections.NONE));
      List<Timed<KeyLabel>> told = Program.of(keyed).tonality().orElseThrow().keys();
      return new Score(
          KeyMetrics.weightedByTime(truth.keys(), told),
          KeyMetrics.sameNameByTime(truth.keys(), told),
          truth.keys().size() - 1,
          told.size() - 1);
    }
  }

  private static void print(String name, String set, List<Score> of) {
    System.out.printf(
        "%-14s %-12s (%d) weighted %.3f by name %.3f changes: true %d, told %d%n",
        name,
        set,
        of.size(),
        of.stream().mapToDouble(Score::weighted).average().orElse(0),
        of.stream().mapToDouble(Score::name).average().orElse(0),
        of.stream().mapToInt(Score::changes).sum(),
        of.stream().mapToInt(Score::told).sum());
  }
}
