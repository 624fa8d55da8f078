package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Echo;
import undersong.reading.NoteEvent;
import undersong.reading.NoteValue;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * True delays, where they are heard by themselves: after the last note before the lead rests, its
 * own partials rise again at equal distances, each time weaker, with nothing between. Several
 * places must agree on the distance, as one machine keeps it.
 *
 * <p>Lags from 0.22 to 1 s. Measured to some 10 ms; where a note value of the song's tempo lies
 * that near, delays are set to it more often than not, and it is taken.
 */
final class DelayFinder {
  private static final double SHORTEST_SECONDS = 0.22;
  private static final double LONGEST_SECONDS = 1.0;
  private static final double STEP_SECONDS = 0.01;
  private static final double NEAR_SECONDS = 0.025;
  private static final double LEAST_FIRST = 0.08;
  private static final double MOST_FIRST = 0.85;
  private static final double LEAST_SECOND = 0.015;
  private static final double SECOND_BELOW_FIRST = 0.65;
  private static final double CLEAN = 0.55;
  private static final double LEAST_PLACES_SHARE = 0.3;
  private static final double MOST_WANDER_SECONDS = 0.012;
  private static final int MOST_REPEATS = 5;
  private static final int FRAMES = 90;

  /** Note values that delays are set to, in whole notes. */
  private static final int[][] VALUES = {
    {1, 16}, {1, 12}, {1, 8}, {3, 16}, {1, 6}, {1, 4}, {3, 8}, {1, 3}, {1, 2}
  };

  private final StereoPowers powers;
  private final BeatGrid grid;
  private final TimeSignature signature;

  DelayFinder(StereoPowers powers, BeatGrid grid, TimeSignature signature) {
    this.powers = powers;
    this.grid = grid;
    this.signature = signature;
  }

  /** One phrase end with what rises again after it. */
  private static final class Ending {
    private final NoteEvent note;
    private final double[] rises;

    Ending(NoteEvent note, double[] rises) {
      this.note = note;
      this.rises = rises;
    }

    double at(double seconds) {
      int middle = (int) Math.round(seconds * 25);
      double most = 0;
      for (int i = Math.max(0, middle - 1); i <= Math.min(rises.length - 1, middle + 1); i++) {
        most = Math.max(most, rises[i]);
      }
      return most;
    }

    /** How well a lag explains it: 0 to 1. */
    double fits(double lag) {
      double first = at(lag);
      double second = at(2 * lag);
      if (first < LEAST_FIRST
          || first > MOST_FIRST
          || second < LEAST_SECOND
          || second > SECOND_BELOW_FIRST * first) {
        return 0;
      }
      double others = 0;
      for (int i = 5; i < Math.min(rises.length, (int) (lag * 50) + 2); i++) {
        double nearest = Math.min(Math.abs(i / 25.0 - lag), Math.abs(i / 25.0 - 2 * lag));
        if (nearest > 0.09) {
          others = Math.max(others, rises[i]);
        }
      }
      return first / (first + others);
    }

    /** Half the way from the rise at the onset to the second repeat's. */
    double refined(double lag) {
      return (peak(2 * lag, 2) - peak(0.04, 1)) / 2;
    }

    /** When the rise is largest near a time, between frames by a parabola. */
    private double peak(double seconds, int reach) {
      int middle = (int) Math.round(seconds * 25);
      int best = Math.max(1, middle - reach + 1);
      for (int i = Math.max(1, middle - reach); i <= middle + reach; i++) {
        best = i < rises.length - 1 && rises[i] > rises[best] ? i : best;
      }
      double bend = rises[best - 1] - 2 * rises[best] + rises[best + 1];
      double shift = bend < 0 ? 0.5 * (rises[best - 1] - rises[best + 1]) / bend : 0;
      return (best + Math.max(-0.5, Math.min(0.5, shift))) / 25;
    }
  }

  List<Echo> of(List<NoteEvent> lead, double durationSeconds) {
    NoteRises rises = new NoteRises(powers);
    List<Ending> endings = new ArrayList<>();
    for (NoteEvent note : PhraseEnds.of(lead)) {
      double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
      endings.add(new Ending(note, rises.after(note.span().startSeconds(), hertz, FRAMES)));
    }
    double best = 0;
    double bestSum = 0;
    for (double lag = SHORTEST_SECONDS; lag <= LONGEST_SECONDS; lag += STEP_SECONDS) {
      double sum = 0;
      for (Ending ending : endings) {
        double fit = ending.fits(lag);
        sum += fit >= CLEAN ? fit : 0;
      }
      if (sum > bestSum + 1e-9) {
        best = lag;
        bestSum = sum;
      }
    }
    double lag = best;
    List<Ending> agreeing = endings.stream().filter(e -> e.fits(lag) >= CLEAN).toList();
    if (agreeing.size() < 2 || agreeing.size() < LEAST_PLACES_SHARE * endings.size()) {
      return List.of();
    }
    double[] lags = agreeing.stream().mapToDouble(e -> e.refined(lag)).sorted().toArray();
    double median = lags[lags.length / 2];
    double wander = 0;
    for (double each : lags) {
      wander += Math.abs(each - median) / lags.length;
    }
    if (wander > MOST_WANDER_SECONDS) {
      return List.of();
    }
    double share = (double) agreeing.size() / endings.size();
    List<Echo> echoes = new ArrayList<>();
    for (Ending ending : agreeing) {
      echoes.add(told(ending, median, wander, share, durationSeconds));
    }
    return echoes;
  }

  private Echo told(
      Ending ending, double lag, double wander, double share, double durationSeconds) {
    double start = ending.note.span().startSeconds();
    Optional<NoteValue> value = noteValue(start, lag);
    double taken = value.map(v -> seconds(start, v)).orElse(lag);
    List<Echo.Repeat> repeats = new ArrayList<>();
    double before = 1;
    for (int i = 1; i <= MOST_REPEATS; i++) {
      double rise = ending.at(i * lag);
      if (rise < 0.01 || rise > before) {
        break;
      }
      repeats.add(repeat(ending.note, i * lag, rise));
      before = rise;
    }
    double end =
        Math.min(
            durationSeconds, ending.note.span().endSeconds() + Math.max(1, repeats.size()) * taken);
    return new Echo(
        Echo.Kind.DELAY,
        new Span(start, end),
        rounded(taken),
        rounded(wander),
        0,
        value,
        rounded(place(ending.note, 0)),
        repeats,
        Math.min(0.9, 0.3 + 0.5 * share + 0.2 * ending.fits(lag)));
  }

  private Echo.Repeat repeat(NoteEvent note, double after, double rise) {
    return new Echo.Repeat(rounded(10 * Math.log10(rise)), rounded(place(note, after)), 0);
  }

  /** Constant-power place of what the note's partials add some time after its onset. */
  private double place(NoteEvent note, double after) {
    double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
    int frame = StereoImage.CLOCK.frameAt(note.span().startSeconds() + after);
    double left = 0;
    double right = 0;
    for (int partial = 1; partial <= 6 && frame >= 2 && frame + 1 < powers.frames(); partial++) {
      int bin = StereoImage.binOf(partial * hertz);
      left += Math.max(0, powers.left(frame + 1, bin) - powers.left(frame - 2, bin));
      right += Math.max(0, powers.right(frame + 1, bin) - powers.right(frame - 2, bin));
    }
    return left + right > 0 ? 4 / Math.PI * Math.atan2(Math.sqrt(right), Math.sqrt(left)) - 1 : 0;
  }

  /** The note value nearest to a lag, where one lies near. */
  private Optional<NoteValue> noteValue(double start, double lag) {
    NoteValue best = null;
    if (!grid.isEmpty()) {
      for (int[] value : VALUES) {
        NoteValue candidate = new NoteValue(value[0], value[1]);
        double away = Math.abs(seconds(start, candidate) - lag);
        if (away <= NEAR_SECONDS && (best == null || away < Math.abs(seconds(start, best) - lag))) {
          best = candidate;
        }
      }
    }
    return Optional.ofNullable(best);
  }

  /**
   * Length of a note value at the tempo around a time, over eight beats since a single one wanders.
   */
  private double seconds(double start, NoteValue value) {
    double beats = value.wholeNotes() / (signature.compound() ? 3.0 / 8 : 1.0 / 4);
    int beat = (int) Math.round(grid.positionAt(start));
    int from = Math.max(0, Math.min(grid.size() - 9, beat - 4));
    int to = Math.min(grid.size() - 1, from + 8);
    return to > from
        ? beats * (grid.secondsAt(to) - grid.secondsAt(from)) / (to - from)
        : Double.POSITIVE_INFINITY;
  }

  private static double rounded(double value) {
    return Math.round(1e4 * value) / 1e4;
  }
}
