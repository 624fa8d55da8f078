package undersong.bench.data;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The tune that a chart of our own may state, one line a letter: {@code # tune A: 7:1 -:1 4:2}.
 * Notes are semitones above the tonic of the bar where the section begins, then beats; "-" is a
 * rest. Every section of that letter has it, cut where the section ends.
 */
final class StatedTune {
  private static final Pattern LINE = Pattern.compile("# tune ([A-Z]): (.+)");

  /** A tonic stands at this pitch or up to eleven semitones above. */
  private static final int LOWEST_TONIC = 55;

  /** Notes end this much before the next, in beats. */
  private static final double BREATH = 0.06;

  private StatedTune() {}

  /** The chart with the tune that its lines state; without such lines as it is. */
  static Chart over(Chart chart, List<String> lines) {
    Map<String, String> stated = new HashMap<>();
    for (String line : lines) {
      Matcher tune = LINE.matcher(line);
      if (tune.matches()) {
        stated.put(tune.group(1), tune.group(2));
      }
    }
    List<Chart.Note> notes = new ArrayList<>();
    int[] starts = chart.barStarts();
    for (int bar = 0; bar < chart.bars().size(); bar++) {
      Chart.Bar opening = chart.bars().get(bar);
      if (opening.opensSection() && stated.containsKey(opening.letter())) {
        int next = bar + 1;
        while (next < chart.bars().size() && !chart.bars().get(next).opensSection()) {
          next++;
        }
        int tonic = LOWEST_TONIC + Math.floorMod(opening.key().tonic() - LOWEST_TONIC, 12);
        add(notes, stated.get(opening.letter()), tonic, starts[bar], starts[next]);
      }
    }
    return new Chart(chart.id(), chart.bars(), notes, chart.second());
  }

  private static void add(List<Chart.Note> notes, String tune, int tonic, double from, double to) {
    double at = from;
    for (String token : tune.strip().split("\\s+")) {
      String[] sides = token.split(":");
      double end = Math.min(to, at + Double.parseDouble(sides[1]));
      if (!sides[0].equals("-") && end > at) {
        notes.add(new Chart.Note(at, end - BREATH, tonic + Integer.parseInt(sides[0])));
      }
      at = end;
    }
  }
}
