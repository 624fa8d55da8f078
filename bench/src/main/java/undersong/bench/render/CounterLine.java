package undersong.bench.render;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import undersong.bench.data.Chart;
import undersong.bench.metrics.KeyLabel;

/**
 * Writes a second voice that has a will of its own: it answers in the rests of the tune, goes
 * against it in a rhythm of its own, moves with it in thirds or sixths above or below, or has the
 * tune's place where nobody sings; a song keeps to one or two of these. Common practice, no source.
 */
final class CounterLine {
  private enum Manner {
    ANSWERS,
    AGAINST,
    ALONG,
    ALONE
  }

  private static final double SHORTEST_REST_BEATS = 1.25;
  private static final double GAP_BEATS = 0.06;
  private static final int NEAREST_TO_LEAD_SEMITONES = 3;

  private final List<Chart.Note> tune;
  private final List<Harmony> harmony;
  private final Chart chart;
  private final Random random;
  private final int center;
  private final double unit;
  private final List<Chart.Note> line = new ArrayList<>();
  private int pitch;

  private CounterLine(List<Chart.Note> tune, List<Harmony> harmony, Chart chart, Random random) {
    this.tune = tune;
    this.harmony = harmony;
    this.chart = chart;
    this.random = random;
    double mean = tune.stream().mapToInt(Chart.Note::midiPitch).average().orElse(64);
    int[] apart = {-7, 0, 5, 9, 12};
    this.center = (int) Math.round(mean) + apart[random.nextInt(apart.length)];
    this.unit = chart.bars().get(0).compound() ? 1.0 / 3 : 0.5;
    this.pitch = center;
  }

  /** The line, one note at a time; empty where the chart has neither rests nor chords. */
  static List<Chart.Note> write(
      List<Chart.Note> tune, List<Harmony> harmony, Chart chart, Random random) {
    return new CounterLine(tune, harmony, chart, random).write();
  }

  private List<Chart.Note> write() {
    Set<Manner> manners = EnumSet.of(Manner.values()[random.nextInt(Manner.values().length)]);
    if (random.nextDouble() < 0.6) {
      manners.add(Manner.values()[random.nextInt(Manner.values().length)]);
    }
    List<Passage> passages = Passage.of(chart);
    boolean everywhere = passages.size() < 3;
    Map<String, Boolean> joins = new HashMap<>();
    for (Passage passage : passages) {
      String name = passage.letter().substring(0, 1);
      if (joins.computeIfAbsent(name, n -> everywhere || random.nextDouble() < 0.6)) {
        fill(passage, manners);
      }
    }
    line.sort(Comparator.comparingDouble(Chart.Note::startBeat));
    return line;
  }

  private void fill(Passage passage, Set<Manner> manners) {
    List<Chart.Note> sung = tune.stream().filter(n -> passage.holds(n.startBeat())).toList();
    if (sung.isEmpty()) {
      if (manners.contains(Manner.ALONE) || manners.contains(Manner.ANSWERS)) {
        walk(passage.startBeat(), passage.endBeat(), rhythm(1, 3), 0.9);
      }
      return;
    }
    if (manners.contains(Manner.ALONG)) {
      along(sung);
    } else if (manners.contains(Manner.AGAINST)) {
      walk(passage.startBeat(), passage.endBeat(), rhythm(2, 6), 0.85);
    }
    if (manners.contains(Manner.ANSWERS) && !manners.contains(Manner.AGAINST)) {
      answers(passage, sung);
    }
  }

  /** Lengths in beats that come back every two bars. */
  private double[] rhythm(int fewestUnits, int mostUnits) {
    double[] lengths = new double[4 + random.nextInt(5)];
    for (int i = 0; i < lengths.length; i++) {
      lengths[i] = unit * (fewestUnits + random.nextInt(mostUnits - fewestUnits + 1));
    }
    return lengths;
  }

  private void walk(double from, double to, double[] rhythm, double sounding) {
    double at = from + (random.nextBoolean() ? unit : 0);
    for (int i = 0; at < to - unit / 2; i++) {
      double end = Math.min(to, at + rhythm[i % rhythm.length]);
      if (random.nextDouble() < sounding) {
        note(at, end - GAP_BEATS);
      }
      at = end;
    }
  }

  private void answers(Passage passage, List<Chart.Note> sung) {
    double[] rhythm = rhythm(1, 3);
    for (int i = 0; i < sung.size(); i++) {
      double rests = Math.ceil(sung.get(i).endBeat() / unit - 0.1) * unit + unit;
      double until = i + 1 < sung.size() ? sung.get(i + 1).startBeat() : passage.endBeat();
      if (until - sung.get(i).endBeat() >= SHORTEST_REST_BEATS && random.nextDouble() < 0.85) {
        walk(rests - unit, until - unit / 2, rhythm, 1);
      }
    }
  }

  /** In the scale, two or five steps away, for whole phrases. */
  private void along(List<Chart.Note> sung) {
    int[] distances = {-2, -2, 2, -5, 5, -4};
    int steps = distances[random.nextInt(distances.length)];
    boolean joins = true;
    double last = Double.NEGATIVE_INFINITY;
    for (Chart.Note note : sung) {
      joins = note.startBeat() - last > 1 ? random.nextDouble() < 0.75 : joins;
      last = note.endBeat();
      int[] ladder = ladder(note.startBeat(), note.midiPitch());
      int place = Arrays.binarySearch(ladder, note.midiPitch());
      place = place < 0 ? -place - 1 : place;
      if (joins && place + steps >= 0 && place + steps < ladder.length) {
        line.add(new Chart.Note(note.startBeat(), note.endBeat(), ladder[place + steps]));
      }
    }
  }

  private void note(double start, double end) {
    Harmony h = Harmony.at(harmony, start);
    int lead = leadAt((start + end) / 2);
    boolean strong = Math.abs(start - Math.rint(start)) < 0.05;
    int wanted = pitch + (int) Math.round(2.5 * random.nextGaussian());
    wanted = Math.max(center - 9, Math.min(center + 9, wanted));
    int best = -1;
    for (int candidate : ladder(start, center)) {
      boolean chordTone =
          h.chord().sounds() && (h.chord().pitchClassBits() & 1 << candidate % 12) != 0;
      boolean apart = lead == 0 || Math.abs(candidate - lead) >= NEAREST_TO_LEAD_SEMITONES;
      if ((chordTone || !strong) && apart) {
        best =
            best < 0 || Math.abs(candidate - wanted) < Math.abs(best - wanted) ? candidate : best;
      }
    }
    if (best >= 0 && h.chord().sounds()) {
      pitch = best;
      line.add(new Chart.Note(start, end, best));
    }
  }

  private int leadAt(double beat) {
    return tune.stream()
        .filter(n -> n.startBeat() <= beat && beat < n.endBeat())
        .mapToInt(Chart.Note::midiPitch)
        .findFirst()
        .orElse(0);
  }

  private int[] ladder(double beat, int around) {
    int[] starts = chart.barStarts();
    int bar = 0;
    while (bar + 1 < chart.bars().size() && starts[bar + 1] <= beat + 1e-6) {
      bar++;
    }
    KeyLabel key = chart.bars().get(bar).key();
    return java.util.stream.IntStream.rangeClosed(around - 14, around + 14)
        .filter(p -> p >= 0 && p <= 127 && TuneWriter.inScale(p % 12, key))
        .toArray();
  }
}
