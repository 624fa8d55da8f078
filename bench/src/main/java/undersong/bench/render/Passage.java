package undersong.bench.render;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import undersong.bench.data.Chart;

/**
 * A section of a chart in beats.
 *
 * @param copy 0 for the first section of its letter, 1 for the next
 */
record Passage(double startBeat, double endBeat, String letter, String name, int copy) {
  static List<Passage> of(Chart chart) {
    List<Passage> passages = new ArrayList<>();
    Map<String, Integer> copies = new HashMap<>();
    int[] starts = chart.barStarts();
    int first = 0;
    for (int b = 0; b < chart.bars().size(); b++) {
      if (b + 1 == chart.bars().size() || chart.bars().get(b + 1).opensSection()) {
        Chart.Bar opening = chart.bars().get(first);
        int copy = copies.merge(opening.letter(), 1, Integer::sum) - 1;
        passages.add(
            new Passage(
                starts[first], starts[b + 1], opening.letter(), opening.sectionName(), copy));
        first = b + 1;
      }
    }
    return passages;
  }

  boolean holds(double beat) {
    return beat >= startBeat - 1e-6 && beat < endBeat - 1e-6;
  }

  boolean isChorus() {
    return letter.equals("B");
  }

  double beats() {
    return endBeat - startBeat;
  }

  /** A tune whose later sections repeat the first of their letter wherever both are as long. */
  static List<Chart.Note> returning(List<Chart.Note> tune, List<Passage> passages) {
    Map<String, Passage> firsts = new HashMap<>();
    List<Chart.Note> returned = new ArrayList<>();
    for (Passage p : passages) {
      Passage first = firsts.computeIfAbsent(p.letter, l -> p);
      Passage from = first.beats() == p.beats() ? first : p;
      double later = p.startBeat - from.startBeat;
      for (Chart.Note n : tune) {
        if (from.holds(n.startBeat())) {
          returned.add(new Chart.Note(n.startBeat() + later, n.endBeat() + later, n.midiPitch()));
        }
      }
    }
    return returned;
  }
}
