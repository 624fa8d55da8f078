package undersong.bench.data;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.KeyLabel;

/** Tells minor from major where a data set states the tonic alone. */
final class Modes {
  private Modes() {}

  /**
   * Bars whose keys are minor where more of the tonic's chords (by duration) have a minor third.
   */
  static List<Chart.Bar> fromTonicChords(List<Chart.Bar> bars) {
    Map<Integer, Double> minorBeats = new HashMap<>();
    for (Chart.Bar bar : bars) {
      for (int i = 0; i < bar.changes().size(); i++) {
        ChordCode chord = bar.changes().get(i).chord();
        double end = i + 1 < bar.changes().size() ? bar.changes().get(i + 1).beat() : bar.beats();
        if (chord.root() == bar.key().tonic() && chord.hasThird()) {
          boolean minor = (chord.bits() & 1 << 3) != 0 && (chord.bits() & 1 << 4) == 0;
          double beats = end - bar.changes().get(i).beat();
          minorBeats.merge(chord.root(), minor ? beats : -beats, Double::sum);
        }
      }
    }
    List<Chart.Bar> told = new ArrayList<>();
    for (Chart.Bar bar : bars) {
      int tonic = bar.key().tonic();
      KeyLabel key =
          minorBeats.getOrDefault(tonic, 0.0) > 0 ? KeyLabel.minor(tonic) : KeyLabel.major(tonic);
      told.add(
          new Chart.Bar(
              bar.beats(),
              bar.compound(),
              key,
              bar.changes(),
              bar.letter(),
              bar.sectionName(),
              bar.opensSection()));
    }
    return told;
  }
}
