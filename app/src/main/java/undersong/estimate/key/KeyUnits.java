package undersong.estimate.key;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Bar;
import undersong.reading.Meter;

/** The stretches between which a key may change: bars, or two seconds each without bars. */
final class KeyUnits {
  private static final double WITHOUT_BARS_SECONDS = 2;

  private KeyUnits() {}

  /** Boundaries from 0 to the end of the recording, rising. */
  static double[] boundaries(Meter meter, double durationSeconds) {
    List<Double> starts = new ArrayList<>();
    starts.add(0.0);
    for (Bar bar : meter.bars()) {
      double start = bar.span().startSeconds();
      if (start > starts.get(starts.size() - 1) + 0.1 && start < durationSeconds - 0.1) {
        starts.add(start);
      }
    }
    if (meter.bars().isEmpty()) {
      for (double at = WITHOUT_BARS_SECONDS;
          at < durationSeconds - 0.5;
          at += WITHOUT_BARS_SECONDS) {
        starts.add(at);
      }
    }
    starts.add(durationSeconds);
    return starts.stream().mapToDouble(Double::doubleValue).toArray();
  }
}
