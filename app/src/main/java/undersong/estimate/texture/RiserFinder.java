package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.reading.Bar;
import undersong.reading.Gesture;
import undersong.reading.Section;
import undersong.time.Span;

/**
 * Air that climbs into a bar line and is gone after it: risers over bars, swells within one. A
 * section's beginning is the likeliest place; since sections may be heard wrong, every bar line is
 * asked, and those inside sections must give a clearer answer.
 */
final class RiserFinder {
  private static final int STEPS_PER_BAR = 4;
  private static final int LONGEST_BARS = 8;

  private static final double LEAST_STEADINESS = 0.85;
  private static final double LEAST_RISE_DB = 6;
  private static final double SWELL_DB = 12;
  private static final double SWELL_SHARE = 0.7;
  private static final double GONE_DB = 4;
  private static final double FALLS_BACK = 0.5;
  private static final double INSIDE_RISE_DB = 12;
  private static final double INSIDE_GONE_DB = 8;
  private static final double UNMISTAKABLE_STEADINESS = 0.95;
  private static final double LARGEST_STEP = 0.6;
  private static final double FLOOR_DB = -75;

  /** What only a room makes at the sides climbs and falls with what is sung, far below this. */
  private static final double SIDES_FLOOR_DB = -48;

  /** Where air is looked for: above most notes, and above what cymbals mostly hold too. */
  private static final double[] AIR_HZ = {5000, 9000};

  private static final int[] AIR_BANDS = {6, 7};
  private static final int POOLED = 6; // 35 ms
  private static final double LEAST_SMOOTHNESS = 0.3;

  private final Features features;
  private final double[] times;

  /** Where a climb may lead to, by step; whether a section begins there. */
  private final TreeMap<Integer, Boolean> goals = new TreeMap<>();

  RiserFinder(Features features, List<Bar> bars, List<Section> sections, int usualBarsPerBar) {
    this.features = features;
    this.times = GestureFinder.steps(bars, usualBarsPerBar * STEPS_PER_BAR);
    for (int step = 0; step < times.length; step += STEPS_PER_BAR) {
      goals.put(step, false);
    }
    sections.forEach(section -> goals.put(nearest(section.span().startSeconds()), true));
  }

  /** Where the steps begin in which what is held is to be measured. */
  double[] times() {
    return times.clone();
  }

  /**
   * @param held power of each band within each step
   * @param sides whether of the sides alone
   */
  List<Gesture> of(double[][] held, boolean sides) {
    double floor = sides ? SIDES_FLOOR_DB : FLOOR_DB;
    List<Gesture> found = new ArrayList<>();
    for (int i = 0; i < AIR_HZ.length; i++) {
      double from = AIR_HZ[i];
      int band = AIR_BANDS[i];
      double[] air =
          Arrays.stream(held)
              .mapToDouble(h -> 10 * Math.log10(GestureFinder.sum(h, from) + 1e-10))
              .toArray();
      goals.forEach(
          (end, boundary) -> {
            if (end >= 2 && end + 2 <= air.length && air[end - 1] > floor) {
              climb(air, band, end, boundary, found);
            }
          });
    }
    return found;
  }

  /** Whether most of the climb is gone after it: what a filter has opened stays open. */
  boolean fallsBack(double[][] held, Gesture climb) {
    int from = nearest(climb.span().startSeconds());
    int end = nearest(climb.span().endSeconds());
    if (end < 1 || end >= held.length || from >= end) {
      return false;
    }
    double peak = decibels(held[end - 1]);
    return peak - decibels(held[end]) >= FALLS_BACK * (peak - decibels(held[from]));
  }

  private static double decibels(double[] held) {
    return 10 * Math.log10(GestureFinder.sum(held, AIR_HZ[0]) + 1e-10);
  }

  /** The longest climb that ends at a step. */
  private void climb(double[] air, int band, int end, boolean boundary, List<Gesture> found) {
    double after = Math.min(air[end], air[end + 1]);
    Gesture best = null;
    for (int length = 2; length <= Math.min(end, LONGEST_BARS * STEPS_PER_BAR); length++) {
      double[] run = Arrays.copyOfRange(air, end - length, end);
      double rise = run[length - 1] - run[0];
      double steadiness = GestureFinder.spearman(run);
      boolean swell = length <= STEPS_PER_BAR;
      double least = swell ? SWELL_DB : boundary ? LEAST_RISE_DB : INSIDE_RISE_DB;
      if (rise >= least
          && (boundary || length > 2)
          && steadiness >= LEAST_STEADINESS
          && (swell || largestStep(run) <= LARGEST_STEP * rise)
          && run[length - 1] - after >= (boundary ? GONE_DB : INSIDE_GONE_DB)
          && (isUnmistakable(swell, rise, steadiness, run[length - 1] - after)
              || smoothness(band, times[end - length], times[end], rise) >= LEAST_SMOOTHNESS)) {
        best =
            new Gesture(
                swell ? Gesture.Kind.SWELL : Gesture.Kind.RISER,
                new Span(times[end - length], times[end]),
                0,
                GestureFinder.rounded(rise),
                GestureFinder.rounded(steadiness),
                Math.min(0.9, 0.4 + 0.02 * rise));
      }
    }
    if (best != null) {
      found.add(lately(air, end, best));
    }
  }

  /** A riser that makes nearly all of its climb within the last bar is a swell. */
  private Gesture lately(double[] air, int end, Gesture riser) {
    double rise = air[end - 1] - air[end - STEPS_PER_BAR];
    return riser.kind() == Gesture.Kind.RISER
            && rise >= SWELL_DB
            && rise >= SWELL_SHARE * riser.levelChangeDb()
        ? new Gesture(
            Gesture.Kind.SWELL,
            new Span(times[end - STEPS_PER_BAR], times[end]),
            0,
            GestureFinder.rounded(rise),
            riser.steadiness(),
            riser.probability())
        : riser;
  }

  /** A sound that enters lifts the air at once; a riser takes its time. */
  private static double largestStep(double[] run) {
    double largest = 0;
    for (int i = 1; i < run.length; i++) {
      largest = Math.max(largest, run[i] - run[i - 1]);
    }
    return largest;
  }

  /** A long, steady climb that breaks off is none of a fill's doing, whatever the drums play. */
  private static boolean isUnmistakable(
      boolean swell, double riseDb, double steadiness, double goneDb) {
    return !swell
        && riseDb >= INSIDE_RISE_DB
        && steadiness >= UNMISTAKABLE_STEADINESS
        && goneDb >= INSIDE_GONE_DB;
  }

  /** How much of all movement up and down of the air is the rise: a drum fill goes up and down. */
  private double smoothness(int airBand, double startSeconds, double endSeconds, double riseDb) {
    FrameMatrix quick = features.image().quickLevelsDb();
    int end = Math.min(quick.frames() - POOLED, quick.clock().frameAt(endSeconds));
    double moved = 0;
    double before = Double.NaN;
    for (int frame = Math.max(0, quick.clock().frameAt(startSeconds));
        frame < end;
        frame += POOLED) {
      double power = 1e-12;
      for (int i = 0; i < POOLED; i++) {
        for (int band = airBand; band < StereoImage.QUICK_BANDS; band++) {
          power += Math.pow(10, quick.at(frame + i, band) / 10);
          power += Math.pow(10, quick.at(frame + i, StereoImage.QUICK_BANDS + band) / 10);
        }
      }
      double here = 10 * Math.log10(power);
      moved += Double.isNaN(before) ? 0 : Math.abs(here - before);
      before = here;
    }
    return moved == 0 ? 0 : riseDb / moved;
  }

  private int nearest(double seconds) {
    int best = 0;
    for (int i = 1; i < times.length; i++) {
      best = Math.abs(times[i] - seconds) < Math.abs(times[best] - seconds) ? i : best;
    }
    return best;
  }
}
