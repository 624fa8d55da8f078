package undersong.bench.charts;

import java.util.List;
import undersong.bench.data.Chart;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.KeyMetrics;
import undersong.bench.metrics.Overlap;
import undersong.bench.metrics.Timed;
import undersong.estimate.key.ChordKeyEstimator;
import undersong.reading.Facet;
import undersong.reading.Keys;
import undersong.reading.Reading;

/**
 * How well tonics are told where chords, bars and sections are known and nothing is heard.
 *
 * @param songs how many
 * @param weighted mean over songs of the weighted agreement by time
 * @param tonic mean over songs of the share of time with the right tonic
 * @param wrong share of songs with a wrong tonic for more than half of their time
 * @param changing songs whose tonic changes
 * @param changingTold of these, how many are told to change
 * @param steadyTold of the others, how many are told to change
 */
record KeysFromChords(
    int songs,
    double weighted,
    double tonic,
    double wrong,
    int changing,
    int changingTold,
    int steadyTold) {
  static KeysFromChords over(List<Chart> charts) {
    double weighted = 0;
    double tonic = 0;
    int wrong = 0;
    int changing = 0;
    int changingTold = 0;
    int steadyTold = 0;
    for (Chart chart : charts) {
      Reading stated = ChartReadings.read(chart);
      List<Timed<KeyLabel>> truth = labels(stated.get(Facet.KEYS));
      List<Timed<KeyLabel>> told = labels(ChordKeyEstimator.fromChords(stated));
      double right =
          Overlap.share(truth, told, KeyLabel.NONE, (t, o) -> t.tonic() == o.tonic() ? 1 : 0);
      weighted += KeyMetrics.weightedByTime(truth, told);
      tonic += right;
      wrong += right < 0.5 ? 1 : 0;
      boolean changes = tonics(truth) > 1;
      boolean toldToChange = tonics(told) > 1;
      changing += changes ? 1 : 0;
      changingTold += changes && toldToChange ? 1 : 0;
      steadyTold += !changes && toldToChange ? 1 : 0;
    }
    int songs = Math.max(1, charts.size());
    return new KeysFromChords(
        charts.size(),
        weighted / songs,
        tonic / songs,
        (double) wrong / songs,
        changing,
        changingTold,
        steadyTold);
  }

  private static long tonics(List<Timed<KeyLabel>> keys) {
    return keys.stream().map(k -> k.value().tonic()).distinct().count();
  }

  private static List<Timed<KeyLabel>> labels(Keys keys) {
    return keys.regions().stream()
        .map(
            region ->
                new Timed<>(
                    region.span().startSeconds(),
                    region.span().endSeconds(),
                    new KeyLabel(region.key().tonic().pitchClass(), region.key().mode().words())))
        .toList();
  }
}
