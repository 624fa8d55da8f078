package undersong.technique.form;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.reading.Bar;
import undersong.reading.BarTexture;
import undersong.reading.Facet;
import undersong.reading.HearingBand;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.time.Span;

/**
 * The band of hearing that a repeat, or a stretch of it, fills more than the copy before does, bar
 * for bar, while most of the other bands stay as they were: what is added there has no layer of its
 * own in the reading.
 *
 * @param span of the bars that are fuller
 * @param riseDb mean over the bars
 */
record FullerBand(HearingBand band, Span span, int bars, double riseDb) {

  /**
   * @param fewestBars of the stretch, unless the repeat is shorter
   * @param leastRiseDb of the mean
   * @param leastSteadiness mean over standard deviation of the bars
   * @param mostOthers share of the rise that the middle one of the bands may have
   */
  record Settings(int fewestBars, double leastRiseDb, double leastSteadiness, double mostOthers) {
    static final Settings DEFAULTS = new Settings(6, 2, 1.4, 0.5);
  }

  /** The longest, and of those the one that rises most; reads METER and TEXTURE. */
  static Optional<FullerBand> of(Reading reading, Repeat repeat, Settings settings) {
    List<Bar> bars = reading.get(Facet.METER).bars();
    List<Integer> here = new ArrayList<>();
    List<double[]> rises = new ArrayList<>();
    rises(reading, repeat, here, rises);
    int fewest = Math.max(4, Math.min(settings.fewestBars(), here.size()));
    for (int length = here.size(); length >= fewest; length--) {
      Optional<FullerBand> best = Optional.empty();
      for (int from = 0; from + length <= here.size(); from++) {
        Span span =
            new Span(
                bars.get(here.get(from)).span().startSeconds(),
                bars.get(here.get(from + length - 1)).span().endSeconds());
        Optional<FullerBand> found = of(rises.subList(from, from + length), span, settings);
        if (found.isPresent() && (best.isEmpty() || found.get().riseDb() > best.get().riseDb())) {
          best = found;
        }
      }
      if (best.isPresent()) {
        return best;
      }
    }
    return Optional.empty();
  }

  /**
   * Mean rise of the band that rises most over the whole repeat; 0 where no bar can be compared.
   */
  static double mostRiseDb(Reading reading, Repeat repeat) {
    List<double[]> rises = new ArrayList<>();
    rises(reading, repeat, new ArrayList<>(), rises);
    double most = rises.isEmpty() ? 0 : Double.NEGATIVE_INFINITY;
    for (int band = 0; band < HearingBand.values().length && !rises.isEmpty(); band++) {
      int at = band;
      most = Math.max(most, rises.stream().mapToDouble(rise -> rise[at]).average().orElseThrow());
    }
    return most;
  }

  /**
   * @param here written: places of the bars that have a fellow in the copy before
   * @param rises written: their rises, by band
   */
  private static void rises(
      Reading reading, Repeat repeat, List<Integer> here, List<double[]> rises) {
    List<Bar> bars = reading.get(Facet.METER).bars();
    List<BarTexture> textures = reading.get(Facet.TEXTURE).bars();
    Map<Integer, Integer> places = new HashMap<>();
    for (int place = 0; place < Math.min(bars.size(), textures.size()); place++) {
      places.put(bars.get(place).number(), place);
    }
    for (Repeat.AlignedBar bar : repeat.bars()) {
      Integer now = places.get(bar.bar());
      Integer before =
          bar.earlier().isEmpty() ? null : places.get(bar.earlier().get(bar.earlier().size() - 1));
      if (now != null && before != null) {
        here.add(now);
        rises.add(rise(textures.get(now), textures.get(before)));
      }
    }
  }

  private static double[] rise(BarTexture now, BarTexture before) {
    return Arrays.stream(HearingBand.values())
        .mapToDouble(band -> now.levelDb(band) - before.levelDb(band))
        .toArray();
  }

  private static Optional<FullerBand> of(List<double[]> rises, Span span, Settings settings) {
    HearingBand[] bands = HearingBand.values();
    double[] means = new double[bands.length];
    Optional<FullerBand> best = Optional.empty();
    for (int i = 0; i < bands.length; i++) {
      double sum = 0;
      double squares = 0;
      for (double[] rise : rises) {
        sum += rise[i];
        squares += rise[i] * rise[i];
      }
      double mean = sum / rises.size();
      double deviation = Math.sqrt(Math.max(0, squares / rises.size() - mean * mean));
      means[i] = mean;
      boolean steady = mean >= settings.leastSteadiness() * deviation;
      if (mean >= settings.leastRiseDb()
          && steady
          && (best.isEmpty() || mean > best.get().riseDb())) {
        best = Optional.of(new FullerBand(bands[i], span, rises.size(), mean));
      }
    }
    Arrays.sort(means);
    double middle = means[means.length / 2];
    return best.filter(fuller -> middle <= settings.mostOthers() * fuller.riseDb());
  }
}
