package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Bar;
import undersong.time.Span;

/**
 * Bars in which far more than elsewhere in the song stands on both sides without being alike. One
 * sound panned by level is alike on both sides, wherever it stands, so it does not count; a room
 * spreads sounds too, but late and through the whole song: what notes add as they begin must be
 * spread as well, and both are held against the song's own closest bars.
 */
final class SpreadBars {
  private static final double BOTTOM_HZ = 300;
  private static final double TOP_HZ = 6000;
  private static final int PARTIALS = 10;
  private static final int POOLED = 4; // 160 ms

  /** An onset must come to this share of what sounds in a partial's bin. */
  private static final double LEAST_RISE = 0.3;

  private static final double LEAST_SPREAD = 0.055;
  private static final double LEAST_BEGUN = 0.02;

  /** By how much the song's closest quarter of bars must be exceeded. */
  private static final double LEAST_CONTRAST = 4;

  /** No bar is closer than this: what is measured below is chance. */
  private static final double CLOSEST = 0.003;

  private static final double QUIET_DB = -15;
  private static final int SHORTEST_BARS = 3;
  private static final double LEAST_SURE = 0.5;
  private static final double SURER_PER_DOUBLING = 0.15;
  private static final double MOST_SURE = 0.85;

  private final StereoPowers powers;
  private final List<Span> bars;
  private final List<HeardNote> heard;

  /**
   * @param usualBarsPerBar into how many bars each is cut, where bars are felt long
   */
  SpreadBars(StereoPowers powers, List<Bar> bars, int usualBarsPerBar, List<HeardNote> heard) {
    this.powers = powers;
    this.heard = heard;
    this.bars = new ArrayList<>();
    for (Bar bar : bars) {
      double length = bar.span().lengthSeconds() / usualBarsPerBar;
      for (int i = 0; i < usualBarsPerBar; i++) {
        double start = bar.span().startSeconds() + i * length;
        this.bars.add(new Span(start, start + length));
      }
    }
  }

  /** Bars in succession, and how sure it is that something is played there twice. */
  record Stretch(Span span, double probability) {}

  private record Spread(double power, double share) {}

  List<Stretch> stretches() {
    int n = bars.size();
    double[] spread = new double[n];
    double[] begun = new double[n];
    double[] levels = new double[n];
    for (int i = 0; i < n; i++) {
      Spread here = spread(bars.get(i));
      spread[i] = here.share();
      levels[i] = here.power();
      begun[i] = begun(bars.get(i));
    }
    double[] spreads = aboutEach(spread);
    double[] begins = aboutEach(begun);
    double closest = Math.max(CLOSEST, lowerQuartile(spread));
    double closestBegun = Math.max(CLOSEST, lowerQuartile(begun));
    double quiet = Arrays.stream(levels).average().orElse(0) * Math.pow(10, QUIET_DB / 10);
    List<Stretch> found = new ArrayList<>();
    int first = -1;
    double contrasts = 0;
    for (int i = 0; i <= n; i++) {
      double contrast = i < n ? Math.min(spreads[i] / closest, begins[i] / closestBegun) : 0;
      boolean wide =
          contrast >= LEAST_CONTRAST
              && spreads[i] >= LEAST_SPREAD
              && begins[i] >= LEAST_BEGUN
              && levels[i] >= quiet;
      if (wide) {
        first = first < 0 ? i : first;
        contrasts += contrast;
      } else if (first >= 0) {
        if (i - first >= SHORTEST_BARS) {
          Span span = new Span(bars.get(first).startSeconds(), bars.get(i - 1).endSeconds());
          found.add(new Stretch(span, sure(contrasts / (i - first))));
        }
        first = -1;
        contrasts = 0;
      }
    }
    return found;
  }

  private static double sure(double contrast) {
    double doublings = Math.log(contrast / LEAST_CONTRAST) / Math.log(2);
    return Math.min(MOST_SURE, LEAST_SURE + SURER_PER_DOUBLING * doublings);
  }

  /** Median of each value and its neighbors: notes of single bars may all be covered. */
  private static double[] aboutEach(double[] values) {
    double[] medians = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      double[] about =
          Arrays.copyOfRange(values, Math.max(0, i - 1), Math.min(values.length, i + 2));
      Arrays.sort(about);
      medians[i] = about[about.length / 2];
    }
    return medians;
  }

  private static double lowerQuartile(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted.length == 0 ? 0 : sorted[sorted.length / 4];
  }

  /** Power and the share of it that stands on both sides without being alike. */
  private Spread spread(Span span) {
    int end = powers.frameAt(span.endSeconds());
    double all = 0;
    double apart = 0;
    for (int frame = powers.frameAt(span.startSeconds()); frame + POOLED <= end; frame += POOLED) {
      for (int bin = StereoImage.binOf(BOTTOM_HZ); bin <= StereoImage.binOf(TOP_HZ); bin++) {
        double[] sums = new double[3];
        powers.addTo(sums, frame, frame + POOLED, bin);
        all += sums[0] + sums[1];
        apart += unlike(sums[0], sums[1], sums[2]);
      }
    }
    return new Spread(all, all > 0 ? apart / all : 0);
  }

  /** Power that cannot be that of one sound panned by level. */
  private static double unlike(double left, double right, double cross) {
    double one = Math.sqrt((right - left) * (right - left) + 4 * cross * cross);
    return Math.max(0, left + right - one);
  }

  /** The same share of what notes add as they begin: mean over the notes, by amplitude. */
  private double begun(Span span) {
    double sum = 0;
    int notes = 0;
    for (HeardNote note : heard) {
      if (!span.contains(note.startSeconds())) {
        continue;
      }
      double all = 0;
      double apart = 0;
      int onset = powers.frameAt(note.startSeconds());
      for (int partial = 1; partial <= PARTIALS && partial * note.hertz() < TOP_HZ; partial++) {
        if (partial * note.hertz() < BOTTOM_HZ) {
          continue;
        }
        double[] before = new double[3];
        double[] after = new double[3];
        int bin = StereoImage.binOf(partial * note.hertz());
        powers.addTo(before, onset - 3, onset - 1, bin);
        powers.addTo(after, onset + 1, onset + 1 + POOLED, bin);
        double left = after[0] / POOLED - before[0] / 2;
        double right = after[1] / POOLED - before[1] / 2;
        double cross = after[2] / POOLED - before[2] / 2;
        if (left > 0 && right > 0 && left + right >= LEAST_RISE * (after[0] + after[1]) / POOLED) {
          double weight = Math.sqrt(left + right);
          all += weight;
          apart += weight * unlike(left, right, cross) / (left + right);
        }
      }
      if (all > 0) {
        sum += apart / all;
        notes++;
      }
    }
    return notes == 0 ? 0 : sum / notes;
  }
}
