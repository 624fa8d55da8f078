package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.DoubleFunction;
import java.util.function.ToDoubleFunction;
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
 * Tries weights of evidence and prices of a change of key on tuning songs, one after the other, and
 * prints what each gives, every set in two halves: what is chosen on one must hold on the other.
 * {@code ./measure charts} says what the prices do on charts.
 */
public final class KeyFit {
  private static final KeySettings S = KeySettings.DEFAULTS;
  private static final double PLACED_BARS = 2;

  private KeyFit() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets, "plant-tune" too
   */
  public static void main(String[] arguments) throws IOException {
    Map<String, KeySettings> tried = tried();
    Map<String, Map<String, List<Score>>> scores = new LinkedHashMap<>();
    tried.keySet().forEach(name -> scores.put(name, new TreeMap<>()));
    Map<String, Integer> heard = new TreeMap<>();
    TuningSong.eachOf(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        (set, truth, id, studied, features) -> {
          heard.merge(set, 1, Integer::sum);
          // Two copies of a song, which follow each other, fall into one half.
          String half = set + (heard.get(set) - 1) / 2 % 2;
          Reading reading = studied.stored().reading();
          tried.forEach(
              (name, settings) ->
                  scores
                      .get(name)
                      .computeIfAbsent(half, key -> new ArrayList<>())
                      .add(Score.of(truth, reading, features, settings)));
        });
    scores.forEach((name, sets) -> sets.forEach((set, of) -> print(name, set, of)));
  }

  private static Map<String, KeySettings> tried() {
    Map<String, KeySettings> tried = new LinkedHashMap<>();
    tried.put("as it stands", S);
    vary(tried, "ear", v -> with(v, S.earChangeWeight(), S.tuneWeight()), 0, 0.03, 0.15, 0.3);
    vary(tried, "ear's change", v -> with(S.earWeight(), v, S.tuneWeight()), 0, 0.8, 1.6, 3.2);
    vary(tried, "tune", v -> with(S.earWeight(), S.earChangeWeight(), v), 0, 0.5, 0.8);
    vary(tried, "section", v -> at(v, S.changeToNear(), S.changeOfLetter()), 2.5, 3, 4, 5);
    vary(tried, "near", v -> at(section(), Math.exp(-v), S.changeOfLetter()), 0.01, 1, 3, 4);
    vary(tried, "letter", v -> at(section(), S.changeToNear(), -v), 2.5, 5, 100);
    return tried;
  }

  private static void vary(
      Map<String, KeySettings> tried, String name, DoubleFunction<KeySettings> of, double... at) {
    for (double value : at) {
      tried.put(name + " " + value, of.apply(value));
    }
  }

  private static double section() {
    return -Math.log(S.changeAtSection());
  }

  private static KeySettings with(double ear, double earChange, double tune) {
    return new KeySettings(
        ear,
        earChange,
        tune,
        S.changeAtSection(),
        S.changeElsewhere(),
        S.changeAtLift(),
        S.changeToNear(),
        S.changeOfLetter());
  }

  private static KeySettings at(double sectionCost, double near, double letter) {
    return new KeySettings(
        S.earWeight(),
        S.earChangeWeight(),
        S.tuneWeight(),
        Math.exp(-sectionCost),
        S.changeElsewhere(),
        S.changeAtLift(),
        near,
        letter);
  }

  /**
   * @param changes true ones
   * @param placed of these, with a change told to that tonic within two bars
   * @param invented told where no such change is
   */
  private record Score(double weighted, double name, int changes, int placed, int invented) {
    static Score of(Truth truth, Reading reading, Features features, KeySettings settings) {
      Reading keyed =
          reading.with(
              Facet.KEYS,
              new ChordKeyEstimator(settings).estimate(features, reading, Corrections.NONE));
      List<Timed<KeyLabel>> told = Program.of(keyed).tonality().orElseThrow().keys();
      double seconds = PLACED_BARS * barSeconds(truth);
      return new Score(
          KeyMetrics.weightedByTime(truth.keys(), told),
          KeyMetrics.sameNameByTime(truth.keys(), told),
          truth.keys().size() - 1,
          met(truth.keys(), told, seconds),
          told.size() - 1 - met(told, truth.keys(), seconds));
    }

    private static int met(List<Timed<KeyLabel>> of, List<Timed<KeyLabel>> by, double seconds) {
      return (int)
          of.stream()
              .skip(1)
              .filter(
                  change ->
                      by.stream()
                          .skip(1)
                          .anyMatch(
                              other ->
                                  other.value().tonic() == change.value().tonic()
                                      && Math.abs(other.startSeconds() - change.startSeconds())
                                          <= seconds))
              .count();
    }

    private static double barSeconds(Truth truth) {
      List<Double> bars = truth.downbeats();
      return (bars.get(bars.size() - 1) - bars.get(0)) / (bars.size() - 1);
    }
  }

  private static void print(String name, String set, List<Score> of) {
    System.out.printf(
        "%-18s %-13s (%d) weighted %.3f by name %.3f changes: true %d, placed %d, invented %d%n",
        name,
        set,
        of.size(),
        mean(of, Score::weighted),
        mean(of, Score::name),
        of.stream().mapToInt(Score::changes).sum(),
        of.stream().mapToInt(Score::placed).sum(),
        of.stream().mapToInt(Score::invented).sum());
  }

  private static double mean(List<Score> of, ToDoubleFunction<Score> what) {
    return of.stream().mapToDouble(what).average().orElse(0);
  }
}
