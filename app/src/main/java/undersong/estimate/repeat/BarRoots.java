package undersong.estimate.repeat;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Meter;
import undersong.theory.ChordSymbol.Chord;
import undersong.time.BeatGrid;

/** The root that sounds in each half of each bar, looked up once. */
final class BarRoots {
  private static final int NONE = -1;

  private final Map<Integer, int[]> halves = new HashMap<>();

  BarRoots(Meter meter, BeatGrid grid, Chords chords) {
    List<ChordSpan> spans = chords.spans();
    double[] starts = spans.stream().mapToDouble(span -> span.span().startSeconds()).toArray();
    for (Bar bar : meter.bars()) {
      int[] roots = new int[2];
      for (int half = 0; half < 2; half++) {
        double beat = bar.firstBeat() + (0.25 + 0.5 * half) * bar.beats();
        int found = Arrays.binarySearch(starts, grid.secondsAtPosition(beat));
        int at = found >= 0 ? found : -found - 2;
        roots[half] =
            at >= 0 && spans.get(at).symbol() instanceof Chord chord
                ? chord.root().pitchClass()
                : NONE;
      }
      halves.put(bar.number(), roots);
    }
  }

  /** Whether both bars have the same root in one half, the first being so much higher. */
  boolean agree(int bar, int other, int half, int semitones) {
    int here = halves.get(bar)[half];
    int there = halves.get(other)[half];
    return here != NONE && there != NONE && here == Math.floorMod(there + semitones, 12);
  }

  /** Whether both bars have a root in one half, and another one. */
  boolean differ(int bar, int other, int half, int semitones) {
    return halves.get(bar)[half] != NONE
        && halves.get(other)[half] != NONE
        && !agree(bar, other, half, semitones);
  }
}
