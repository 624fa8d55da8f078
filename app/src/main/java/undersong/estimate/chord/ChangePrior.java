package undersong.estimate.chord;

import undersong.reading.Bar;
import undersong.reading.Meter;

/**
 * How likely a chord change is at each step: likeliest on bar lines, then on strong beats, then on
 * beats. What a first decoding found nearby is learned from, so that a section whose chords all
 * come early makes its own early place likely instead of being pulled to the bar line.
 */
final class ChangePrior {
  // Starting points, from the charts marked for learning and renderings of them.
  private static final double ON_BAR_LINE = 0.4;
  private static final double ON_STRONG_BEAT = 0.16;
  private static final double ON_BEAT = 0.06;
  private static final double HALF_A_BEAT_EARLY = 0.2;
  private static final double BETWEEN_BEATS = 0.02;
  private static final double WITHOUT_PULSE = 0.06;

  /** Bars on either side that a bar learns from, and how many bars the starting point counts as. */
  private static final int NEIGHBOR_BARS = 6;

  private static final double PRIOR_BARS = 6;

  private ChangePrior() {}

  static float[] start(StepGrid grid, Meter meter) {
    float[] change = new float[grid.steps()];
    for (int step = 0; step < change.length; step++) {
      change[step] = (float) Math.log(start(grid, meter, step));
    }
    return change;
  }

  private static double start(StepGrid grid, Meter meter, int step) {
    if (!grid.hasPulse()) {
      return WITHOUT_PULSE;
    }
    if (grid.bar(step) < 0) {
      return ON_BEAT / 2;
    }
    Bar bar = meter.bars().get(grid.bar(step));
    int place = grid.place(step);
    int perBeat = grid.tatumsPerBeat();
    if (place == 0) {
      return ON_BAR_LINE;
    }
    if (place % perBeat == 0) {
      return isStrong(place / perBeat, bar) ? ON_STRONG_BEAT : ON_BEAT;
    }
    boolean half = 2 * (place % perBeat) == perBeat;
    int nextBeat = place / perBeat + 1;
    if (half && (nextBeat == bar.beats() || isStrong(nextBeat, bar))) {
      return HALF_A_BEAT_EARLY;
    }
    return half ? BETWEEN_BEATS : BETWEEN_BEATS / 2;
  }

  private static boolean isStrong(int beat, Bar bar) {
    return bar.beats() % 2 == 0 && beat == bar.beats() / 2;
  }

  /** The prior after a first decoding. */
  static float[] learned(StepGrid grid, Meter meter, float[] start, int[] path) {
    if (!grid.hasPulse() || meter.bars().isEmpty()) {
      return start;
    }
    int bars = meter.bars().size();
    int places = 0;
    for (int step = 0; step < grid.steps(); step++) {
      places = Math.max(places, grid.place(step) + 1);
    }
    // changes[place][bar + 1]: changes at that place up to and including that bar
    int[][] changes = new int[places][bars + 1];
    for (int step = 1; step < grid.steps(); step++) {
      if (grid.bar(step) >= 0 && path[step] != path[step - 1]) {
        changes[grid.place(step)][grid.bar(step) + 1]++;
      }
    }
    for (int[] atPlace : changes) {
      for (int bar = 0; bar < bars; bar++) {
        atPlace[bar + 1] += atPlace[bar];
      }
    }
    float[] learned = start.clone();
    for (int step = 0; step < grid.steps(); step++) {
      if (grid.bar(step) >= 0) {
        int from = Math.max(0, grid.bar(step) - NEIGHBOR_BARS);
        int to = Math.min(bars, grid.bar(step) + NEIGHBOR_BARS + 1);
        int counted = changes[grid.place(step)][to] - changes[grid.place(step)][from];
        double share = (counted + PRIOR_BARS * Math.exp(start[step])) / (to - from + PRIOR_BARS);
        learned[step] = (float) Math.log(Math.min(0.9, share));
      }
    }
    return learned;
  }
}
