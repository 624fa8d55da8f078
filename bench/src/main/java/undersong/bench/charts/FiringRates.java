package undersong.bench.charts;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import undersong.bench.data.Chart;
import undersong.study.TechniqueFinders;
import undersong.technique.Finding;
import undersong.technique.OnPaper;
import undersong.technique.Technique;
import undersong.technique.Techniques;

/** In how many songs each technique is found that chords, bars and sections on paper can show. */
final class FiringRates {
  /** Findings below this are not told. */
  private static final double TOLD = 0.5;

  private FiringRates() {}

  /**
   * @param songs in which it is found
   * @param findings in all songs
   */
  record Rate(int songs, int findings) {
    static final Rate NONE = new Rate(0, 0);

    Rate and(long more) {
      return more == 0 ? this : new Rate(songs + 1, findings + (int) more);
    }
  }

  /** One rate for each technique that shows on paper, also where it is never found. */
  static Map<Technique, Rate> over(List<Chart> charts) {
    Techniques techniques = TechniqueFinders.standard();
    Map<Technique, Rate> rates = new EnumMap<>(Technique.class);
    OnPaper.techniques().forEach(technique -> rates.put(technique, Rate.NONE));
    for (Chart chart : charts) {
      Map<Technique, Long> found =
          techniques.in(ChartReadings.read(chart)).stream()
              .filter(finding -> finding.probability() >= TOLD)
              .collect(Collectors.groupingBy(Finding::technique, Collectors.counting()));
      rates.replaceAll((technique, rate) -> rate.and(found.getOrDefault(technique, 0L)));
    }
    return rates;
  }
}
