package undersong.bench.charts;

import java.util.ArrayList;
import java.util.List;
import undersong.bench.data.Chart;
import undersong.bench.metrics.ChordCode;

/** Charts that say less of each chord, so that figures compare with models that know less. */
final class ReducedCharts {
  private static final int MAJOR = bits(0, 4, 7);
  private static final int MINOR = bits(0, 3, 7);
  private static final int OPEN = bits(0, 7);

  private ReducedCharts() {}

  /** How much of a chord is kept. Chords that become equal to their neighbor are joined with it. */
  enum Kept {
    THIRD("degree and third"),
    SEVENTH("with sevenths"),
    ALL("with sevenths and bass");

    private final String words;

    Kept(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  static Chart reduce(Chart chart, Kept kept) {
    List<Chart.Bar> bars = new ArrayList<>();
    for (Chart.Bar bar : chart.bars()) {
      bars.add(
          new Chart.Bar(
              bar.beats(),
              bar.compound(),
              bar.key(),
              bar.changes().stream()
                  .map(change -> new Chart.Change(change.beat(), reduce(change.chord(), kept)))
                  .toList(),
              bar.letter(),
              bar.sectionName(),
              bar.opensSection()));
    }
    return new Chart(chart.id(), bars, chart.tune(), chart.second());
  }

  private static ChordCode reduce(ChordCode chord, Kept kept) {
    if (!chord.sounds() || kept == Kept.ALL) {
      return chord;
    }
    if (kept == Kept.SEVENTH) {
      return ChordCode.of(chord.root(), ChartReadings.members(chord), 0);
    }
    boolean major = (chord.bits() & 1 << 4) != 0;
    return ChordCode.of(chord.root(), major ? MAJOR : chord.hasThird() ? MINOR : OPEN, 0);
  }

  private static int bits(int... semitones) {
    int bits = 0;
    for (int s : semitones) {
      bits |= 1 << s;
    }
    return bits;
  }
}
