package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Echo;
import undersong.reading.Section;
import undersong.time.Span;

/**
 * Two takes of one line, left and right: the partials of its notes are as strong on both sides, but
 * the channels are not alike there, as they would be for one sound in the middle. A room makes them
 * unlike too, but lags behind.
 */
final class DoubleFinder {
  private static final double EVEN = 0.6;
  private static final double UNLIKE = 0.6;

  /**
   * Even of a doubled line most notes are covered by others; without one few look doubled, though
   * more where a copy is worn. On 46 tuning songs, clean and worn, 14 of 19 told are doubles from
   * here on, and 16 of 37 from half of it on.
   */
  private static final double LEAST_SHARE = 0.075;

  private static final double MOST_SURE = 0.85;
  private static final int FEWEST_NOTES = 5;
  private static final int PARTIALS = 5;
  private static final double LOWEST_HZ = 250;
  private static final int REACH_FRAMES = 7; // 40 ms

  private final StereoPowers powers;
  private final FrameMatrix quick;
  private final RoomEvidence room;

  DoubleFinder(StereoPowers powers, FrameMatrix quick, RoomEvidence room) {
    this.powers = powers;
    this.quick = quick;
    this.room = room;
  }

  /**
   * @param sections asked as wholes, where the song does not say by itself where doubles begin
   * @param spread what stands on both sides and is not alike, bar by bar
   */
  List<Echo> of(List<Section> sections, List<HeardNote> heard, SpreadBars spread) {
    List<Echo> found = new ArrayList<>();
    for (SpreadBars.Stretch stretch : spread.stretches()) {
      List<HeardNote> inside = in(stretch.span(), heard);
      if (inside.size() >= FEWEST_NOTES && !room.explains(stretch.span())) {
        found.add(told(stretch.span(), inside, stretch.probability()));
      }
    }
    List<Span> known = found.stream().map(Echo::span).toList();
    for (Section section : sections) {
      if (known.stream().anyMatch(span -> span.overlaps(section.span()))) {
        continue;
      }
      List<HeardNote> inside = in(section.span(), heard);
      List<HeardNote> doubled = inside.stream().filter(this::isOnBothSides).toList();
      double share = inside.isEmpty() ? 0 : (double) doubled.size() / inside.size();
      if (doubled.size() >= FEWEST_NOTES
          && share >= LEAST_SHARE
          && !room.explains(section.span())) {
        found.add(told(section.span(), doubled, Math.min(MOST_SURE, 0.45 + 2 * share)));
      }
    }
    return found;
  }

  private static List<HeardNote> in(Span span, List<HeardNote> heard) {
    return heard.stream().filter(note -> span.contains(note.startSeconds())).toList();
  }

  private boolean isOnBothSides(HeardNote note) {
    int from = powers.frameAt(note.startSeconds() + 0.04);
    int end =
        Math.max(from + 2, powers.frameAt(Math.min(note.endSeconds(), note.startSeconds() + 0.4)));
    double both = 0;
    double all = 0;
    for (int partial = 1; partial <= PARTIALS && partial * note.hertz() < 6000; partial++) {
      if (partial * note.hertz() < LOWEST_HZ) {
        continue;
      }
      double[] sums = new double[3];
      powers.addTo(sums, from, end, StereoImage.binOf(partial * note.hertz()));
      double power = sums[0] + sums[1];
      all += Math.sqrt(power);
      if (power > 0 && Math.abs(sums[1] - sums[0]) < EVEN * power && 2 * sums[2] < UNLIKE * power) {
        both += Math.sqrt(power);
      }
    }
    return all > 0 && both > 0.5 * all;
  }

  private Echo told(Span section, List<HeardNote> notes, double probability) {
    List<Double> lags = new ArrayList<>();
    for (HeardNote note : notes) {
      lags.add(Math.abs(lagSeconds(note.startSeconds())));
    }
    lags.sort(Comparator.naturalOrder());
    double median = Math.max(0.005, lags.get(lags.size() / 2));
    double wander = 0;
    for (double lag : lags) {
      wander += Math.abs(lag - median) / lags.size();
    }
    double start = Math.max(section.startSeconds(), notes.get(0).startSeconds());
    double end = notes.get(notes.size() - 1).endSeconds();
    return new Echo(
        Echo.Kind.DOUBLE,
        new Span(start, Math.max(start + 0.1, Math.min(end, section.endSeconds()))),
        Math.round(1e4 * median) / 1e4,
        Math.round(1e4 * wander) / 1e4,
        0,
        Optional.empty(),
        -0.7,
        List.of(new Echo.Repeat(0, 0.7, 0)),
        probability);
  }

  /** Lag of the right channel's rise behind the left's about an onset. */
  private double lagSeconds(double seconds) {
    int middle = StereoImage.QUICK_CLOCK.frameAt(seconds);
    double best = Double.NEGATIVE_INFINITY;
    int lag = 0;
    for (int shift = -REACH_FRAMES; shift <= REACH_FRAMES; shift++) {
      double sum = 0;
      for (int i = -8; i <= 12; i++) {
        sum += rise(middle + i, 0) * rise(middle + i + shift, StereoImage.QUICK_BANDS);
      }
      if (sum > best) {
        best = sum;
        lag = shift;
      }
    }
    return StereoImage.QUICK_CLOCK.secondsAt(lag);
  }

  private double rise(int frame, int firstBand) {
    if (frame < 1 || frame >= quick.frames()) {
      return 0;
    }
    double sum = 0;
    for (int band = 2; band < 6; band++) {
      sum += Math.max(0, quick.at(frame, firstBand + band) - quick.at(frame - 1, firstBand + band));
    }
    return sum;
  }
}
