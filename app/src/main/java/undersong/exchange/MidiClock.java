package undersong.exchange;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Beats;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.time.BeatGrid;

/**
 * Places seconds of the recording on ticks such that, played by its tempo map, every beat falls
 * where it was heard. Tick 0 is second 0; the time before the first beat is filled with whole
 * beats. Tempi are whole microseconds per quarter, so each is chosen against where the file really
 * stands: roundings do not add up.
 */
final class MidiClock {
  static final int TICKS_PER_QUARTER = 480;
  private static final int SLOWEST_MICROSECONDS = 0xFFFFFF;
  private static final double NO_PULSE_BEAT_SECONDS = 0.5;

  /** From this tick on a quarter lasts so many microseconds. */
  record Tempo(long tick, int microsecondsPerQuarter) {}

  private final double[] seconds;
  private final long[] ticks;
  private final int leadInBeats;
  private final List<Tempo> tempi = new ArrayList<>();

  private MidiClock(double[] seconds, long[] ticks, int leadInBeats) {
    this.seconds = seconds;
    this.ticks = ticks;
    this.leadInBeats = leadInBeats;
  }

  static MidiClock of(Reading reading) {
    BeatGrid grid =
        reading
            .find(Facet.BEATS)
            .map(Beats::grid)
            .filter(found -> !found.isEmpty())
            .orElseGet(() -> BeatGrid.of(0, NO_PULSE_BEAT_SECONDS));
    BarCounts counts = BarCounts.of(reading);
    double first = grid.secondsAt(0);
    double period = grid.secondsAt(1) - first;
    int leadIn = first == 0 ? 0 : (int) Math.max(1, Math.round(first / period));
    double last = grid.secondsAt(grid.size() - 1);
    double lastPeriod = last - grid.secondsAt(grid.size() - 2);
    double tail = reading.durationSeconds() - last;
    int after = 1 + (int) Math.max(0, Math.ceil(tail / lastPeriod));
    int points = leadIn + grid.size() + after;
    double[] seconds = new double[points];
    long[] ticks = new long[points];
    for (int i = 0; i < points; i++) {
      seconds[i] = i < leadIn ? first * i / leadIn : grid.secondsAtPosition((double) i - leadIn);
      int beat = Math.max(0, Math.min(grid.size() - 1, i - 1 - leadIn));
      boolean compound = counts.signatureOf(beat).compound();
      int ticksPerBeat = compound ? TICKS_PER_QUARTER * 3 / 2 : TICKS_PER_QUARTER;
      ticks[i] = i == 0 ? 0 : ticks[i - 1] + ticksPerBeat;
    }
    MidiClock clock = new MidiClock(seconds, ticks, leadIn);
    clock.placeTempi();
    return clock;
  }

  private void placeTempi() {
    double playedMicroseconds = 0;
    int before = 0;
    for (int i = 0; i + 1 < seconds.length; i++) {
      double quarters = (double) (ticks[i + 1] - ticks[i]) / TICKS_PER_QUARTER;
      double wanted = (seconds[i + 1] * 1e6 - playedMicroseconds) / quarters;
      int tempo = (int) Math.max(1, Math.min(SLOWEST_MICROSECONDS, Math.round(wanted)));
      playedMicroseconds += tempo * quarters;
      if (tempo != before) {
        tempi.add(new Tempo(ticks[i], tempo));
        before = tempo;
      }
    }
  }

  List<Tempo> tempi() {
    return List.copyOf(tempi);
  }

  /** Beats that fill the time before the first beat of the grid. */
  int leadInBeats() {
    return leadInBeats;
  }

  /** Tick of a beat of the grid. */
  long tickOfBeat(int beat) {
    return ticks[Math.min(ticks.length - 1, beat + leadInBeats)];
  }

  /** Nearest tick to a time; times before 0 or after the end are held there. */
  long tickAt(double atSeconds) {
    int low = 0;
    int high = seconds.length - 1;
    while (high - low > 1) {
      int middle = (low + high) >>> 1;
      if (seconds[middle] <= atSeconds) {
        low = middle;
      } else {
        high = middle;
      }
    }
    double share = (atSeconds - seconds[low]) / (seconds[high] - seconds[low]);
    double held = Math.max(0, Math.min(1, share));
    return Math.round(ticks[low] + held * (ticks[high] - ticks[low]));
  }
}
