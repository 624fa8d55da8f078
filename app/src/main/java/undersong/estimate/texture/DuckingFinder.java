package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.reading.Bar;
import undersong.reading.Ducking;
import undersong.time.Span;

/**
 * Hears whether everything else dips with the kick: the level from 250 Hz to 8 kHz after each kick,
 * the median over the kicks of four bars. What ducks dips at once and comes back smoothly; a rhythm
 * on the off-beats comes back with a jump, and a limiter on the whole mix takes its time.
 *
 * <p>A voice that does not duck, and the click of the kick itself, fill the upper octaves: the
 * lowest ones are also asked by themselves. The level must fall with the kick, since notes end
 * somewhere between two kicks, and begin slowly, as well.
 */
final class DuckingFinder {
  private static final int WINDOW_BARS = 4;
  private static final int FEWEST_KICKS = 6;
  private static final double KICK_LIMIT = 0.5;

  /** Limiting of the whole mix alone gives way by two or three decibels at every kick. */
  private static final double LEAST_DEPTH_DB = 3.5;

  /** What ducks is still falling when the kick begins; a note that begins with it only rises. */
  private static final double EARLIEST_TROUGH_SECONDS = 0.015;

  /** By then half of the dip is made up. */
  private static final double LATEST_RETURN_BEATS = 0.45;

  private static final double LARGEST_JUMP_SHARE = 0.45;
  private static final double LATEST_TROUGH_OF_PART_SECONDS = 0.06;
  private static final double BEFORE_SECONDS = 0.06;
  private static final double LEAST_FALL_SHARE = 0.35;
  private static final double SILENCE_DECIBELS = -120;
  private static final int FIRST_BAND = 2;
  private static final int END_BAND = 6;

  /** Above the kick's own sound, below its click: one octave, or two. */
  private static final int[] ENDS_OF_PART = {3, 4};

  private final FrameMatrix quick;
  private final List<Double> kicks;

  DuckingFinder(Features features) {
    this.quick = features.image().quickLevelsDb();
    this.kicks = new ArrayList<>();
    features
        .heard()
        .ifPresent(
            ear -> {
              FrameMatrix drums = ear.head(EarHead.DRUMS);
              for (int f = 1; f < drums.frames() - 1; f++) {
                float here = drums.at(f, 0);
                if (here >= KICK_LIMIT && here >= drums.at(f - 1, 0) && here > drums.at(f + 1, 0)) {
                  kicks.add(drums.clock().secondsAt(f));
                }
              }
            });
  }

  private record Dip(double depthDb, double lagSeconds, double recoverySeconds) {}

  List<Ducking> of(List<Bar> bars) {
    List<Ducking> found = new ArrayList<>();
    int first = -1;
    List<Dip> dips = new ArrayList<>();
    for (int bar = 0; bar + WINDOW_BARS <= bars.size() + 1; bar++) {
      Optional<Dip> dip = bar + WINDOW_BARS <= bars.size() ? dip(bars, bar) : Optional.empty();
      if (dip.isPresent()) {
        first = first < 0 ? bar : first;
        dips.add(dip.get());
      } else if (first >= 0) {
        int last = bar - 1 + WINDOW_BARS - 1;
        found.add(told(bars.get(first), bars.get(last), dips));
        first = -1;
        dips = new ArrayList<>();
        bar = last; // the next stretch begins after this one
      }
    }
    return found;
  }

  private static Ducking told(Bar first, Bar last, List<Dip> dips) {
    double depth = dips.stream().mapToDouble(Dip::depthDb).average().orElseThrow();
    return new Ducking(
        new Span(first.span().startSeconds(), last.span().endSeconds()),
        Math.round(10 * depth) / 10.0,
        Math.round(1000 * dips.stream().mapToDouble(Dip::lagSeconds).average().orElseThrow())
            / 1000.0,
        Math.round(1000 * dips.stream().mapToDouble(Dip::recoverySeconds).average().orElseThrow())
            / 1000.0,
        Math.min(0.95, 1 / (1 + Math.exp(-(depth - 3.5))) * Math.min(1, 0.7 + 0.1 * dips.size())));
  }

  /** The dip over four bars; empty where nothing dips. */
  private Optional<Dip> dip(List<Bar> bars, int bar) {
    double from = bars.get(bar).span().startSeconds();
    double until = bars.get(bar + WINDOW_BARS - 1).span().endSeconds();
    double beat = bars.get(bar).span().lengthSeconds() / bars.get(bar).beats();
    List<Double> here = new ArrayList<>();
    for (double kick : kicks) {
      if (kick >= from
          && kick < until
          && (here.isEmpty() || kick - here.get(here.size() - 1) > 0.7 * beat)) {
        here.add(kick);
      }
    }
    if (here.size() < FEWEST_KICKS) {
      return Optional.empty();
    }
    Stream<Dip> whole =
        Stream.of(false, true).flatMap(weaker -> fall(here, 0.9 * beat, END_BAND, weaker).stream());
    Stream<Dip> part =
        Arrays.stream(ENDS_OF_PART)
            .boxed()
            .flatMap(end -> fall(here, 0.9 * beat, end, false).stream())
            .filter(dip -> dip.lagSeconds() <= LATEST_TROUGH_OF_PART_SECONDS);
    return Stream.concat(whole, part)
        .filter(dip -> dip.lagSeconds() >= EARLIEST_TROUGH_SECONDS)
        .filter(dip -> dip.lagSeconds() + dip.recoverySeconds() <= LATEST_RETURN_BEATS * beat)
        .max(Comparator.comparingDouble(Dip::depthDb));
  }

  /** A dip into which the level falls with the kick, from what sounded before it. */
  private Optional<Dip> fall(List<Double> at, double lengthSeconds, int endBand, boolean weaker) {
    double[] after = curve(at, lengthSeconds, endBand, weaker);
    List<Double> earlier = at.stream().map(kick -> kick - BEFORE_SECONDS).toList();
    double before = curve(earlier, BEFORE_SECONDS / 2, endBand, weaker)[0];
    return shape(after).filter(dip -> before - lowest(after) >= LEAST_FALL_SHARE * dip.depthDb());
  }

  private static double lowest(double[] curve) {
    return Arrays.stream(curve, 0, searched(curve)).min().orElse(0);
  }

  private static int searched(double[] curve) {
    return Math.min(curve.length, (int) (0.13 * StereoImage.QUICK_CLOCK.framesPerSecond()));
  }

  /** Median level after the kicks, frame by frame: of both channels, or of the weaker one. */
  private double[] curve(List<Double> at, double lengthSeconds, int endBand, boolean weaker) {
    int length = (int) (lengthSeconds * StereoImage.QUICK_CLOCK.framesPerSecond());
    double[] curve = new double[length];
    double[] values = new double[at.size()];
    for (int i = 0; i < length; i++) {
      for (int k = 0; k < values.length; k++) {
        int frame = StereoImage.QUICK_CLOCK.frameAt(at.get(k)) + i;
        boolean inside = frame >= 0 && frame < quick.frames();
        values[k] = inside ? level(frame, endBand, weaker) : SILENCE_DECIBELS;
      }
      Arrays.sort(values);
      curve[i] = values[values.length / 2];
    }
    return smoothed(curve);
  }

  private double level(int frame, int endBand, boolean weaker) {
    double left = 0;
    double right = 0;
    for (int band = FIRST_BAND; band < endBand; band++) {
      left += Math.pow(10, quick.at(frame, band) / 10);
      right += Math.pow(10, quick.at(frame, StereoImage.QUICK_BANDS + band) / 10);
    }
    return 10 * Math.log10((weaker ? Math.min(left, right) : left + right) + 1e-12);
  }

  private static double[] smoothed(double[] curve) {
    int reach = 3;
    double[] out = new double[curve.length];
    for (int i = 0; i < curve.length; i++) {
      int from = Math.max(0, i - reach);
      int end = Math.min(curve.length, i + reach + 1);
      for (int j = from; j < end; j++) {
        out[i] += curve[j] / (end - from);
      }
    }
    return out;
  }

  private static Optional<Dip> shape(double[] curve) {
    double frames = StereoImage.QUICK_CLOCK.framesPerSecond();
    int searched = searched(curve);
    if (curve.length < 0.25 * frames) {
      return Optional.empty();
    }
    int trough = 0;
    for (int i = 1; i < searched; i++) {
      trough = curve[i] < curve[trough] ? i : trough;
    }
    double late = 0;
    int lateFrom = (int) (0.75 * curve.length);
    for (int i = lateFrom; i < curve.length; i++) {
      late += curve[i] / (curve.length - lateFrom);
    }
    double depth = late - curve[trough];
    int half = trough;
    double jump = 0;
    for (int i = trough; i < curve.length; i++) {
      if (curve[i] < curve[trough] + depth / 2 && half == i) {
        half = i + 1;
      }
      if (i + 3 < curve.length) {
        jump = Math.max(jump, curve[i + 3] - curve[i]);
      }
    }
    return depth < LEAST_DEPTH_DB || jump > LARGEST_JUMP_SHARE * depth
        ? Optional.empty()
        : Optional.of(new Dip(depth, trough / frames, (half - trough) / frames));
  }
}
