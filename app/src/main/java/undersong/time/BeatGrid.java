package undersong.time;

import java.util.Arrays;

/**
 * Beat times in seconds, strictly rising. Between two beats time runs evenly; before the first and
 * after the last it goes on at the pace of the nearest beat. {@link #NO_PULSE} has no beats.
 */
public final class BeatGrid {
  public static final BeatGrid NO_PULSE = new BeatGrid(new double[0]);

  private final double[] seconds;

  private BeatGrid(double[] seconds) {
    this.seconds = seconds;
  }

  /**
   * @param seconds read; each later than the one before and not negative; one beat alone is no
   *     pulse and is refused
   */
  public static BeatGrid of(double... seconds) {
    if (seconds.length == 0) {
      return NO_PULSE;
    }
    if (seconds.length == 1) {
      throw new IllegalArgumentException(
          "A beat grid of one beat has no period; give two or none.");
    }
    for (int i = 0; i < seconds.length; i++) {
      if (!(seconds[i] >= 0 && Double.isFinite(seconds[i]))
          || (i > 0 && seconds[i] <= seconds[i - 1])) {
        throw new IllegalArgumentException(
            "Beat %d at %s s must be later than the beat before it and not negative."
                .formatted(i, seconds[i]));
      }
    }
    return new BeatGrid(seconds.clone());
  }

  public int size() {
    return seconds.length;
  }

  public boolean isEmpty() {
    return seconds.length == 0;
  }

  public double secondsAt(int beat) {
    return seconds[beat];
  }

  public double[] toArray() {
    return seconds.clone();
  }

  /** Time of a fractional beat position (0 = first beat); extrapolated outside the grid. */
  public double secondsAtPosition(double beat) {
    requirePulse();
    int i = Math.max(0, Math.min(seconds.length - 2, (int) Math.floor(beat)));
    return seconds[i] + (beat - i) * (seconds[i + 1] - seconds[i]);
  }

  /** Fractional beat position of a time (0 = first beat); extrapolated outside the grid. */
  public double positionAt(double timeSeconds) {
    requirePulse();
    int found = Arrays.binarySearch(seconds, timeSeconds);
    int i = found >= 0 ? found : -found - 2;
    i = Math.max(0, Math.min(seconds.length - 2, i));
    return i + (timeSeconds - seconds[i]) / (seconds[i + 1] - seconds[i]);
  }

  /** Beat nearest to a time. */
  public int nearestBeat(double timeSeconds) {
    int beat = (int) Math.round(positionAt(timeSeconds));
    return Math.max(0, Math.min(seconds.length - 1, beat));
  }

  public double medianBpm() {
    requirePulse();
    double[] periods = new double[seconds.length - 1];
    for (int i = 0; i < periods.length; i++) {
      periods[i] = seconds[i + 1] - seconds[i];
    }
    Arrays.sort(periods);
    int middle = periods.length / 2;
    double median =
        periods.length % 2 == 1 ? periods[middle] : (periods[middle - 1] + periods[middle]) / 2;
    return 60 / median;
  }

  private void requirePulse() {
    if (seconds.length == 0) {
      throw new IllegalStateException("This beat grid has no pulse; ask isEmpty() first.");
    }
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof BeatGrid grid && Arrays.equals(seconds, grid.seconds);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(seconds);
  }

  @Override
  public String toString() {
    return seconds.length == 0 ? "no pulse" : "%d beats, %.1f bpm".formatted(size(), medianBpm());
  }
}
