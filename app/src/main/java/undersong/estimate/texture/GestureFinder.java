package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Bar;
import undersong.reading.Gesture;
import undersong.reading.Section;
import undersong.time.Span;

/**
 * Risers, filters that open or close, swells and stops.
 *
 * <p>Movements are read off what stays between strokes: of each quarter of a bar the lower quartile
 * of every band, for the middle and the sides apart, since a filter seldom lies on everything.
 */
final class GestureFinder {
  private static final int STEPS_PER_BAR = 4;

  private static final int POOLED = 6; // 35 ms
  private static final double STOP_DB = 12;
  private static final double BOTTOM_HZ = 200;

  private final Features features;
  private final StereoPowers powers;

  GestureFinder(Features features, StereoPowers powers) {
    this.features = features;
    this.powers = powers;
  }

  List<Gesture> of(List<Bar> bars, List<Section> sections, int usualBarsPerBar) {
    if (bars.size() < 2 || powers.frames() == 0) {
      return List.of();
    }
    double[] times = steps(bars);
    List<Gesture> found = new ArrayList<>();
    List<Gesture> filters = new ArrayList<>();
    RiserFinder risers = new RiserFinder(features, bars, sections, usualBarsPerBar);
    double[] quickTimes = risers.times();
    for (boolean sides : new boolean[] {false, true}) {
      double[][] held = held(times, sides);
      filters.addAll(sides ? SweepFinder.sweeps(held, times) : FilterFinder.filters(held, times));
      // A riser opens too: it comes before what only moves, not before what was shut.
      boolean same = quickTimes.length == times.length;
      double[][] quick = same ? held : held(quickTimes, sides);
      List<Gesture> climbs = risers.of(quick, sides);
      found.addAll(climbs);
      filters.removeIf(
          filter ->
              climbs.stream()
                  .anyMatch(
                      climb ->
                          climb.span().overlapSeconds(filter.span()) > 0.2
                              && risers.fallsBack(quick, climb)));
    }
    found.sort(Comparator.comparingDouble(g -> -g.span().lengthSeconds()));
    found.addAll(0, filters);
    dropOverlapping(found);
    found.addAll(stops(bars));
    found.sort(Comparator.comparingDouble(g -> g.span().startSeconds()));
    return found;
  }

  /** Of gestures that overlap the first stays. */
  private static void dropOverlapping(List<Gesture> gestures) {
    for (int i = gestures.size() - 1; i > 0; i--) {
      Span span = gestures.get(i).span();
      if (gestures.subList(0, i).stream().anyMatch(g -> g.span().overlaps(span))) {
        gestures.remove(i);
      }
    }
  }

  private static double[] steps(List<Bar> bars) {
    return steps(bars, STEPS_PER_BAR);
  }

  /** Where the steps of all bars begin, and where the last ends. */
  static double[] steps(List<Bar> bars, int stepsPerBar) {
    double[] times = new double[bars.size() * stepsPerBar + 1];
    for (int bar = 0; bar < bars.size(); bar++) {
      Span span = bars.get(bar).span();
      for (int i = 0; i < stepsPerBar; i++) {
        times[bar * stepsPerBar + i] = span.startSeconds() + span.lengthSeconds() * i / stepsPerBar;
      }
    }
    times[times.length - 1] = bars.get(bars.size() - 1).span().endSeconds();
    return times;
  }

  /** Lower quartile of each bin's power within each step. */
  private double[][] held(double[] times, boolean sides) {
    double[][] held = new double[times.length - 1][StereoImage.BINS];
    for (int step = 0; step < held.length; step++) {
      int from = powers.frameAt(times[step]);
      int end = Math.max(from + 1, powers.frameAt(times[step + 1]));
      float[] values = new float[end - from];
      for (int bin = 0; bin < StereoImage.BINS; bin++) {
        for (int frame = from; frame < end; frame++) {
          double both = powers.power(frame, bin) / 2;
          double cross = powers.cross(frame, bin) / 2;
          values[frame - from] = (float) Math.max(0, sides ? both - cross : both + cross);
        }
        Arrays.sort(values);
        held[step][bin] = values[values.length / 4];
      }
    }
    return held;
  }

  static double sum(double[] held, double fromHz) {
    double sum = 0;
    for (int bin = StereoImage.binOf(fromHz); bin < held.length; bin++) {
      sum += held[bin];
    }
    return sum;
  }

  /**
   * Octaves above the bottom below which 95 % of what is held lies; NaN where hardly anything is.
   */
  static double rollOff(double[] held) {
    double whole = sum(held, BOTTOM_HZ);
    if (whole < 1e-9) {
      return Double.NaN;
    }
    double passed = 0;
    for (int bin = StereoImage.binOf(BOTTOM_HZ); bin < held.length; bin++) {
      passed += held[bin];
      if (passed >= 0.95 * whole) {
        return Math.log(StereoImage.edgeHz(bin + 1) / BOTTOM_HZ) / Math.log(2);
      }
    }
    return Double.NaN;
  }

  /** Highs die away first: what closes with the song is its last sound, and no filter. */
  static boolean ringsOut(double moved, int endStep, int steps) {
    return moved < 0 && endStep > steps - 4 * STEPS_PER_BAR;
  }

  /** Half a beat to four beats that lie 12 dB and more below what is around. */
  private List<Gesture> stops(List<Bar> bars) {
    FrameMatrix quick = features.image().quickLevelsDb();
    double[] level = new double[quick.frames() / POOLED];
    for (int i = 0; i < level.length; i++) {
      double sum = 0;
      for (int frame = i * POOLED; frame < (i + 1) * POOLED; frame++) {
        for (int band = 0; band < quick.bins(); band++) {
          sum += Math.pow(10, quick.at(frame, band) / 10) / POOLED;
        }
      }
      level[i] = 10 * Math.log10(sum + 1e-12);
    }
    double perSecond = quick.clock().framesPerSecond() / POOLED;
    List<Gesture> found = new ArrayList<>();
    Bar bar = bars.get(bars.size() / 2);
    double beat = bar.span().lengthSeconds() / bar.beats();
    int around = (int) (4 * beat * perSecond);
    int begin = -1;
    for (int i = around; i < level.length - around / 2; i++) {
      if (begin >= 0 && i - begin >= around) {
        // Nothing of what was around is left to compare with: the song has gone quiet, not stopped.
        begin = -1;
      }
      double before = median(level, i - around, begin < 0 ? i : begin);
      boolean low = level[i] < before - STOP_DB;
      if (low && begin < 0) {
        begin = i;
      } else if (!low && begin >= 0) {
        double seconds = (i - begin) / perSecond;
        boolean returns = median(level, i, i + around / 2) > before - STOP_DB / 2;
        if (returns && seconds >= 0.4 * beat && seconds <= 4.5 * beat) {
          double lowest = Arrays.stream(level, begin, i).average().orElse(0);
          found.add(
              new Gesture(
                  Gesture.Kind.STOP,
                  new Span(begin / perSecond, i / perSecond),
                  0,
                  rounded(lowest - before),
                  0,
                  Math.min(0.95, 0.5 + 0.03 * (before - lowest - STOP_DB))));
        }
        begin = -1;
      }
    }
    return found;
  }

  private static double median(double[] values, int from, int end) {
    double[] part = Arrays.copyOfRange(values, Math.max(0, from), Math.max(1, end));
    Arrays.sort(part);
    return part[part.length / 2];
  }

  /** Rank correlation with time; ties share their mean rank. */
  static double spearman(double[] values) {
    int n = values.length;
    double[] ranks = new double[n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        ranks[i] += values[j] < values[i] ? 1 : values[j] == values[i] && j != i ? 0.5 : 0;
      }
    }
    double mean = (n - 1) / 2.0;
    double product = 0;
    double ownSquares = 0;
    double timeSquares = 0;
    for (int i = 0; i < n; i++) {
      product += (ranks[i] - mean) * (i - mean);
      ownSquares += (ranks[i] - mean) * (ranks[i] - mean);
      timeSquares += (i - mean) * (i - mean);
    }
    return ownSquares == 0 ? 0 : product / Math.sqrt(ownSquares * timeSquares);
  }

  static double rounded(double value) {
    return Math.round(100 * value) / 100.0;
  }
}
