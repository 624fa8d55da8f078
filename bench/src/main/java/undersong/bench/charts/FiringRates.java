package undersong.bench.charts;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import undersong.bench.data.Chart;
import undersong.reading.Reading;
import undersong.technique.Calibration;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.technique.TechniqueFinder;
import undersong.technique.Techniques;
import undersong.technique.harmony.HarmonyFinders;

/** In how many songs each technique of harmony is found, where the chords are known. */
final class FiringRates {
  /** Findings below this are not told. */
  private static final double TOLD = 0.5;

  /** Techniques that charts cannot show: they need a tune, a sound, or the way a song ends. */
  static final Set<Technique> NOT_ON_PAPER =
      Set.of(
          Technique.TENSION_TONE,
          Technique.REINTERPRETED_TONE,
          Technique.HALF_CADENCE,
          Technique.WITHHELD_THIRD,
          Technique.UNRESOLVED_ENDING);

  private final Techniques techniques = techniques();

  static Techniques techniques() {
    return new Techniques(HarmonyFinders.all(), Calibration.NONE);
  }

  /**
   * @param songs in which it is found
   * @param findings in all songs
   */
  record Rate(int songs, int findings) {}

  /** One rate for each technique that the finders of harmony know, also where none is found. */
  Map<Technique, Rate> over(List<Chart> charts) {
    Map<Technique, Rate> rates = new EnumMap<>(Technique.class);
    for (TechniqueFinder finder : techniques.finders()) {
      finder.techniques().forEach(technique -> rates.put(technique, new Rate(0, 0)));
    }
    for (Chart chart : charts) {
      Map<Technique, Long> found = new TreeMap<>(found(ChartReadings.read(chart)));
      found.forEach(
          (technique, times) ->
              rates.merge(
                  technique,
                  new Rate(1, times.intValue()),
                  (a, b) -> new Rate(a.songs() + b.songs(), a.findings() + b.findings())));
    }
    return rates;
  }

  private Map<Technique, Long> found(Reading reading) {
    return techniques.in(reading).stream()
        .filter(finding -> finding.probability() >= TOLD)
        .collect(Collectors.groupingBy(Finding::technique, Collectors.counting()));
  }
}
