package undersong.estimate.chord;

import java.util.Arrays;
import undersong.reading.Bar;
import undersong.reading.Beats;
import undersong.reading.Meter;
import undersong.time.BeatGrid;

/**
 * The steps in which chords are decoded: tatums where there is a pulse, quarters of a second where
 * there is none; from the start of the recording to its end, none shorter than half a tatum.
 */
final class StepGrid {
  private static final double STEP_WITHOUT_PULSE_SECONDS = 0.25;

  /** A boundary that belongs to no bar. */
  static final int NO_PLACE = -1;

  private final double[] boundariesSeconds;
  private final double[] beats;
  private final int[] bar;
  private final int[] place;
  private final int tatumsPerBeat;
  private final boolean pulse;

  private StepGrid(double[] boundariesSeconds, double[] beats, int tatumsPerBeat, Meter meter) {
    this.boundariesSeconds = boundariesSeconds;
    this.beats = beats;
    this.tatumsPerBeat = tatumsPerBeat;
    this.pulse = beats.length > 0;
    int steps = boundariesSeconds.length - 1;
    bar = new int[steps];
    place = new int[steps];
    Arrays.fill(bar, -1);
    Arrays.fill(place, NO_PLACE);
    int i = 0;
    for (int step = 0; pulse && step < steps; step++) {
      while (i < meter.bars().size() && beats[step] > lastBeat(meter.bars().get(i)) - 0.01) {
        i++;
      }
      if (i < meter.bars().size() && beats[step] > meter.bars().get(i).firstBeat() - 0.01) {
        bar[step] = i;
        place[step] =
            (int) Math.round((beats[step] - meter.bars().get(i).firstBeat()) * tatumsPerBeat);
      }
    }
  }

  private static int lastBeat(Bar bar) {
    return bar.firstBeat() + bar.beats();
  }

  static StepGrid of(Beats beats, Meter meter, double durationSeconds) {
    BeatGrid grid = beats.grid();
    return grid.isEmpty()
        ? withoutPulse(durationSeconds, meter)
        : withPulse(beats, meter, durationSeconds);
  }

  private static StepGrid withoutPulse(double durationSeconds, Meter meter) {
    int steps = Math.max(1, (int) Math.round(durationSeconds / STEP_WITHOUT_PULSE_SECONDS));
    double[] boundaries = new double[steps + 1];
    for (int i = 0; i <= steps; i++) {
      boundaries[i] = durationSeconds * i / steps;
    }
    return new StepGrid(boundaries, new double[0], 1, meter);
  }

  private static StepGrid withPulse(Beats beats, Meter meter, double durationSeconds) {
    BeatGrid grid = beats.grid();
    int perBeat = beats.tatumsPerBeat();
    int first = (int) Math.floor(grid.positionAt(0) * perBeat);
    int last = (int) Math.ceil(grid.positionAt(durationSeconds) * perBeat);
    double[] boundaries = new double[last - first + 1];
    double[] positions = new double[last - first + 1];
    int count = 0;
    for (int tatum = first; tatum <= last; tatum++) {
      double position = (double) tatum / perBeat;
      double seconds =
          tatum == first
              ? 0
              : tatum == last
                  ? durationSeconds
                  : secondsAt(beats, Math.floorDiv(tatum, perBeat), Math.floorMod(tatum, perBeat));
      double half =
          0.5
              * (grid.secondsAtPosition(position + 1.0 / perBeat)
                  - grid.secondsAtPosition(position));
      if (tatum == last && count > 1 && seconds - boundaries[count - 1] < half) {
        count--; // the last step takes in the sliver after it
      } else if (count == 1 && tatum != last && seconds - boundaries[0] < half) {
        continue; // the first step takes in the sliver before it
      }
      boundaries[count] = seconds;
      positions[count] = position;
      count++;
    }
    return new StepGrid(
        Arrays.copyOf(boundaries, count), Arrays.copyOf(positions, count), perBeat, meter);
  }

  /** Swung eighths divide the beat unevenly. */
  private static double secondsAt(Beats beats, int beat, int tatum) {
    double share = (double) tatum / beats.tatumsPerBeat();
    if (tatum == 1 && beats.tatumsPerBeat() == 2) {
      share = beats.swingRatio() / (1 + beats.swingRatio());
    }
    return beats.grid().secondsAtPosition(beat + share);
  }

  int steps() {
    return boundariesSeconds.length - 1;
  }

  boolean hasPulse() {
    return pulse;
  }

  int tatumsPerBeat() {
    return tatumsPerBeat;
  }

  double startSeconds(int step) {
    return boundariesSeconds[step];
  }

  double endSeconds(int step) {
    return boundariesSeconds[step + 1];
  }

  /** How much a step counts as evidence: its length in beats, or in half-seconds without pulse. */
  double weight(int step) {
    return pulse ? beats[step + 1] - beats[step] : 0.5;
  }

  /** Index of the bar a step stands in, or -1. */
  int bar(int step) {
    return bar[step];
  }

  /** Tatums from the bar line to a step's start, or {@link #NO_PLACE}. */
  int place(int step) {
    return place[step];
  }

  /** Step that begins nearest to a time. */
  int nearestStart(double seconds) {
    int found = Arrays.binarySearch(boundariesSeconds, seconds);
    if (found >= 0) {
      return Math.min(steps() - 1, found);
    }
    int after = Math.min(steps(), -found - 1);
    int before = Math.max(0, after - 1);
    boolean earlier = seconds - boundariesSeconds[before] < boundariesSeconds[after] - seconds;
    return Math.min(steps() - 1, earlier ? before : after);
  }

  /** First boundary not before a time, as an index that may equal {@link #steps()}. */
  int nearestBoundary(double seconds) {
    int step = nearestStart(seconds);
    boolean end =
        step == steps() - 1 && endSeconds(step) - seconds < Math.abs(seconds - startSeconds(step));
    return end ? steps() : step;
  }

  /** First step of each bar and one past its last; both -1 where a bar has none. */
  int[][] barSteps(int bars) {
    int[][] ranges = new int[bars][2];
    for (int[] range : ranges) {
      Arrays.fill(range, -1);
    }
    for (int step = 0; step < steps(); step++) {
      if (bar[step] >= 0) {
        int[] range = ranges[bar[step]];
        range[0] = range[0] < 0 ? step : range[0];
        range[1] = step + 1;
      }
    }
    return ranges;
  }
}
