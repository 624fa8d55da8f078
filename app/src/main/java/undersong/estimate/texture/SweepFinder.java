package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import undersong.reading.Gesture;
import undersong.time.Span;

/**
 * A filter over some parts: looked for in what the channels do not share, where neither the lead
 * nor kick, snare and bass hide it.
 *
 * <p>Compared is by how much three octaves lie above or below what they usually are in the song
 * with what a low-pass filter of twelve decibels an octave does to them whose corner moves by equal
 * ratios in equal times: the octaves come one after the other, the lowest first. Chords and strokes
 * move them too, but not so far, nor in this order.
 *
 * <p><b>Silence</b> holds none. <b>Cost:</b> O(steps * lengths * steps of a length).
 */
final class SweepFinder {
  private static final double NOTES_HZ = 250;
  private static final double LOWEST_HZ = 1000;
  private static final int OCTAVES = 3;
  private static final double SHUT_HZ = 400;
  private static final double OPEN_HZ = 8000;
  private static final double DECIBELS_PER_OCTAVE = 12;

  /** What is further down is lost among other sounds. */
  private static final double DEEPEST_DB = 24;

  private static final int SHORTEST_STEPS = 6;
  private static final int LONGEST_STEPS = 32;

  /** Between the levels as they are and as the filter would have them. */
  private static final double LEAST_CORRELATION = 0.8;

  /** The same where the song ends: its last sound loses its highs first, filter or none. */
  private static final double LEAST_CORRELATION_AT_END = 0.9;

  /** One of three that were told in songs to tune by was none, however like a filter. */
  private static final double DOUBT = 0.25;

  /** How much of the filter's doing is there: other parts fill up what it takes. */
  private static final double LEAST_SLOPE = 0.55;

  /** The notes go on: they seldom lie further below what is usual. */
  private static final double NOTES_GONE_DB = 12;

  /** Highs die away first: what rings out falls as a whole, below the filter as well. */
  private static final double RINGS_OUT_DB = 6;

  private static final double AUDIBLE_DB = -65;

  /** Above the usual level, step by step: of the notes, then of each octave. */
  private final double[][] above;

  private final double[][] held;
  private final double[] times;

  private SweepFinder(double[][] held, double[] times) {
    this.held = held;
    this.times = times;
    this.above = new double[held.length][OCTAVES + 1];
    for (int band = 0; band <= OCTAVES; band++) {
      double from = band == 0 ? NOTES_HZ : LOWEST_HZ * Math.pow(2, band - 1);
      double[] levels = levels(from, 2 * from);
      double[] sorted = levels.clone();
      Arrays.sort(sorted);
      for (int step = 0; step < levels.length; step++) {
        above[step][band] = levels[step] - sorted[sorted.length / 2];
      }
    }
  }

  /**
   * The likeliest that do not overlap.
   *
   * @param held power of each bin of the sides within each quarter of a bar, between strokes
   */
  static List<Gesture> sweeps(double[][] held, double[] times) {
    return usual(held, NOTES_HZ) < AUDIBLE_DB ? List.of() : new SweepFinder(held, times).sweeps();
  }

  private static double usual(double[][] held, double fromHz) {
    double[] levels = Arrays.stream(held).mapToDouble(step -> decibels(step, fromHz)).toArray();
    Arrays.sort(levels);
    return levels[levels.length / 2];
  }

  private static double decibels(double[] step, double fromHz) {
    return 10 * Math.log10(GestureFinder.sum(step, fromHz) + 1e-12);
  }

  /** The louder of two steps that follow: chords are often struck on every second one. */
  private double[] levels(double fromHz, double toHz) {
    double[] levels = new double[held.length];
    for (int step = 0; step < held.length; step++) {
      double power = 0;
      for (int i = step; i < Math.min(held.length, step + 2); i++) {
        double here = GestureFinder.sum(held[i], fromHz) - GestureFinder.sum(held[i], toHz);
        power = Math.max(power, here);
      }
      levels[step] = 10 * Math.log10(power + 1e-12);
    }
    return levels;
  }

  /** How well a filter explains some steps: by its slope and by the correlation. */
  private record Likeness(int from, int length, int direction, double correlation, double slope) {
    double merit() {
      return correlation * slope * Math.sqrt(length);
    }
  }

  private List<Gesture> sweeps() {
    List<Likeness> likely = new ArrayList<>();
    for (int length = SHORTEST_STEPS; length <= LONGEST_STEPS; length++) {
      for (int from = 0; from + length <= held.length; from++) {
        if (notesGoOn(from, length)) {
          for (int direction = -1; direction <= 1; direction += 2) {
            Likeness here = likeness(from, length, direction);
            if (here.correlation >= leastCorrelation(direction, from + length)
                && here.slope >= LEAST_SLOPE
                && !(direction < 0 && ringsOut(from, length))) {
              likely.add(here);
            }
          }
        }
      }
    }
    likely.sort(Comparator.comparingDouble(Likeness::merit).reversed());
    List<Gesture> found = new ArrayList<>();
    for (Likeness likeness : likely) {
      Gesture gesture = told(likeness);
      if (found.stream().noneMatch(other -> other.span().overlaps(gesture.span()))) {
        found.add(gesture);
      }
    }
    return found;
  }

  private double leastCorrelation(int direction, int end) {
    return GestureFinder.ringsOut(direction, end, held.length)
        ? LEAST_CORRELATION_AT_END
        : LEAST_CORRELATION;
  }

  private boolean notesGoOn(int from, int length) {
    for (int step = from; step < from + length; step++) {
      if (above[step][0] < -NOTES_GONE_DB) {
        return false;
      }
    }
    return true;
  }

  private boolean ringsOut(int from, int length) {
    int part = length / 3;
    double fall = 0;
    for (int i = 0; i < part; i++) {
      fall += (above[from + i][0] - above[from + length - 1 - i][0]) / part;
    }
    return fall > RINGS_OUT_DB;
  }

  private Likeness likeness(int from, int length, int direction) {
    double sum = 0;
    double filterSum = 0;
    double squares = 0;
    double filterSquares = 0;
    double products = 0;
    int count = length * OCTAVES;
    for (int step = 0; step < length; step++) {
      double open = (step + 0.5) / length;
      for (int octave = 1; octave <= OCTAVES; octave++) {
        double filter = filterDb(direction > 0 ? open : 1 - open, octave);
        double level = Math.max(-DEEPEST_DB, Math.min(DEEPEST_DB, above[from + step][octave]));
        sum += level;
        filterSum += filter;
        squares += level * level;
        filterSquares += filter * filter;
        products += level * filter;
      }
    }
    double common = products / count - sum / count * filterSum / count;
    double spread = squares / count - sum / count * sum / count;
    double filterSpread = filterSquares / count - filterSum / count * filterSum / count;
    return new Likeness(
        from,
        length,
        direction,
        common / Math.sqrt(spread * filterSpread + 1e-9),
        common / filterSpread);
  }

  /** What the filter does to an octave's middle, as far as it shows. */
  private static double filterDb(double open, int octave) {
    double corner = SHUT_HZ * Math.pow(OPEN_HZ / SHUT_HZ, open);
    double middle = LOWEST_HZ * Math.pow(2, octave - 0.5);
    double octavesAbove = Math.log(middle / corner) / Math.log(2);
    return Math.max(-DEEPEST_DB, -DECIBELS_PER_OCTAVE * Math.max(0, octavesAbove));
  }

  private Gesture told(Likeness sweep) {
    double octaves = Math.log(OPEN_HZ / SHUT_HZ) / Math.log(2) * Math.min(1, sweep.slope);
    int end = sweep.from + sweep.length;
    return new Gesture(
        sweep.direction > 0 ? Gesture.Kind.OPENING : Gesture.Kind.CLOSING,
        new Span(times[sweep.from], times[end]),
        GestureFinder.rounded(sweep.direction * octaves),
        GestureFinder.rounded(decibels(held[end - 1], 0) - decibels(held[sweep.from], 0)),
        GestureFinder.rounded(sweep.direction * sweep.correlation),
        GestureFinder.rounded(sweep.correlation - DOUBT));
  }
}
