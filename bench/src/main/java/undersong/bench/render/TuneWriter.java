package undersong.bench.render;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import undersong.bench.data.Chart;
import undersong.bench.metrics.KeyLabel;

/**
 * Writes a tune over a chart that has none: two-bar rhythms that come back with their section,
 * chord tones on beats, steps between, a breath at the end of every fourth bar. Where the chord has
 * no third the tune keeps off the third as well.
 */
final class TuneWriter {
  private static final Map<String, int[]> SCALES =
      Map.of(
          "major", new int[] {0, 2, 4, 5, 7, 9, 11},
          "minor", new int[] {0, 2, 3, 5, 7, 8, 10},
          "harmonic minor", new int[] {0, 2, 3, 5, 7, 8, 11},
          "dorian", new int[] {0, 2, 3, 5, 7, 9, 10},
          "mixolydian", new int[] {0, 2, 4, 5, 7, 9, 10},
          "phrygian", new int[] {0, 1, 3, 5, 7, 8, 10},
          "lydian", new int[] {0, 2, 4, 6, 7, 9, 11});

  private final Chart chart;
  private final List<Harmony> harmony;
  private final Random random;
  private final int lowest;
  private int pitch;

  private TuneWriter(Chart chart, List<Harmony> harmony, Random random) {
    this.chart = chart;
    this.harmony = harmony;
    this.random = random;
    this.lowest = random.nextBoolean() ? 57 : 50;
    this.pitch = lowest + 8;
  }

  static List<Chart.Note> write(Chart chart, List<Harmony> harmony, Random random) {
    return new TuneWriter(chart, harmony, random).write();
  }

  private List<Chart.Note> write() {
    List<Chart.Note> tune = new ArrayList<>();
    Map<String, List<double[]>> rhythms = new HashMap<>();
    int[] starts = chart.barStarts();
    int since = 0;
    for (int b = 0; b < chart.bars().size(); b++) {
      Chart.Bar bar = chart.bars().get(b);
      since = bar.opensSection() ? 0 : since + 1;
      boolean instrumental = bar.sectionName().matches("intro|interlude|outro|instrumental");
      String id = bar.letter() + since % 2 + bar.beats() + bar.compound();
      List<double[]> rhythm =
          rhythms.computeIfAbsent(id, letter -> rhythm(bar.beats(), bar.compound()));
      boolean breath = since % 4 == 3;
      if (!instrumental) {
        for (double[] stroke : rhythm) {
          if (!breath || stroke[0] < bar.beats() * 0.55) {
            note(tune, starts[b] + stroke[0], starts[b] + stroke[1], bar.key());
          }
        }
      }
    }
    return tune;
  }

  private List<double[]> rhythm(int beats, boolean compound) {
    double unit = compound ? 1.0 / 3 : 0.5;
    List<double[]> strokes = new ArrayList<>();
    double at = random.nextDouble() < 0.3 ? unit : 0;
    while (at < beats - unit / 2) {
      int units = 1 + random.nextInt(compound ? 3 : 4);
      double end = Math.min(beats, at + units * unit);
      if (random.nextDouble() < 0.85) {
        strokes.add(new double[] {at, end - 0.06});
      }
      at = end;
    }
    return strokes;
  }

  private void note(List<Chart.Note> tune, double start, double end, KeyLabel key) {
    Harmony h = Harmony.at(harmony, start);
    boolean onBeat = Math.abs(start - Math.rint(start)) < 0.05;
    List<Integer> allowed = new ArrayList<>();
    for (int candidate = lowest; candidate <= lowest + 17; candidate++) {
      int pitchClass = candidate % 12;
      boolean chordTone = h.chord().sounds() && (h.chord().pitchClassBits() & 1 << pitchClass) != 0;
      boolean third =
          h.chord().sounds()
              && !h.chord().hasThird()
              && (Math.floorMod(pitchClass - h.chord().root(), 12) == 3
                  || Math.floorMod(pitchClass - h.chord().root(), 12) == 4);
      if (!third && (chordTone || (!onBeat && inScale(pitchClass, key)))) {
        allowed.add(candidate);
      }
    }
    if (allowed.isEmpty()) {
      return;
    }
    int wanted = pitch + (int) Math.round(2.2 * random.nextGaussian());
    int best = allowed.get(0);
    for (int candidate : allowed) {
      if (Math.abs(candidate - wanted) < Math.abs(best - wanted)) {
        best = candidate;
      }
    }
    pitch = best;
    tune.add(new Chart.Note(start, end, pitch));
  }

  static boolean inScale(int pitchClass, KeyLabel key) {
    int above = Math.floorMod(pitchClass - key.tonic(), 12);
    for (int s : SCALES.getOrDefault(key.mode(), SCALES.get("major"))) {
      if (s == above) {
        return true;
      }
    }
    return false;
  }

  /**
   * A second voice under the tune: the nearest chord tone at least a third below, in some sections.
   */
  static List<Chart.Note> second(List<Chart.Note> tune, List<Harmony> harmony, Chart chart) {
    List<Chart.Note> second = new ArrayList<>();
    int[] starts = chart.barStarts();
    for (Chart.Note note : tune) {
      int bar = 0;
      while (bar + 1 < starts.length - 1 && starts[bar + 1] <= note.startBeat() + 1e-6) {
        bar++;
      }
      String letter = chart.bars().get(bar).letter();
      Harmony h = Harmony.at(harmony, note.startBeat());
      if (letter.charAt(0) % 2 == 0 && h.chord().sounds()) {
        for (int below = 3; below <= 9; below++) {
          if ((h.chord().pitchClassBits() & 1 << (note.midiPitch() - below) % 12) != 0) {
            second.add(new Chart.Note(note.startBeat(), note.endBeat(), note.midiPitch() - below));
            break;
          }
        }
      }
    }
    return second;
  }
}
