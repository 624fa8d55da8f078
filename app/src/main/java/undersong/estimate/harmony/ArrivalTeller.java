package undersong.estimate.harmony;

import undersong.reading.Bar;
import undersong.reading.Meter;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Tells how far from its place in the bar a chord arrives. Places are bar lines and, in bars of an
 * even number of beats, their middle. A chord that comes up to a beat before a place and holds
 * through it belongs to that place.
 */
final class ArrivalTeller {
  /** Nearer than this a chord is on its place. */
  private static final double ON_PLACE_BEATS = 0.12;

  private static final double EARLIEST_BEATS = 1.1;

  /** A chord holds through a place if it lasts this much longer. */
  private static final double HOLDS_BEATS = 0.4;

  private final BeatGrid grid;
  private final Meter meter;

  ArrivalTeller(BeatGrid grid, Meter meter) {
    this.grid = grid;
    this.meter = meter;
  }

  /** Beats from the place the chord belongs to: negative = early; 0 without a pulse or bars. */
  double arrivalBeats(Span chord) {
    if (grid.isEmpty() || meter.bars().isEmpty()) {
      return 0;
    }
    double start = grid.positionAt(chord.startSeconds());
    double end = grid.positionAt(chord.endSeconds());
    double before = placeAtOrBefore(start + ON_PLACE_BEATS);
    if (Math.abs(start - before) <= ON_PLACE_BEATS) {
      return 0;
    }
    double after = placeAfter(start + ON_PLACE_BEATS);
    boolean early = after - start <= EARLIEST_BEATS && end >= after + HOLDS_BEATS;
    double late = start - before;
    double arrival = early ? start - after : late < after - start ? late : 0;
    return Math.rint(arrival * 100) / 100;
  }

  /** The bar a chord belongs to once its early arrival is taken back; -1 outside all bars. */
  int barOf(Span chord) {
    if (grid.isEmpty() || meter.bars().isEmpty()) {
      return -1;
    }
    double place = grid.positionAt(chord.startSeconds()) - Math.min(0, arrivalBeats(chord));
    for (int i = 0; i < meter.bars().size(); i++) {
      Bar bar = meter.bars().get(i);
      if (place >= bar.firstBeat() - ON_PLACE_BEATS
          && place < bar.firstBeat() + bar.beats() - ON_PLACE_BEATS) {
        return i;
      }
    }
    return -1;
  }

  private double placeAtOrBefore(double position) {
    double best = Double.NEGATIVE_INFINITY;
    for (Bar bar : meter.bars()) {
      best = bar.firstBeat() <= position ? Math.max(best, bar.firstBeat()) : best;
      double middle = middle(bar);
      best = middle <= position ? Math.max(best, middle) : best;
    }
    Bar last = meter.bars().get(meter.bars().size() - 1);
    double end = last.firstBeat() + last.beats();
    return end <= position ? end : best;
  }

  private double placeAfter(double position) {
    for (Bar bar : meter.bars()) {
      if (bar.firstBeat() > position) {
        return bar.firstBeat();
      }
      if (middle(bar) > position) {
        return middle(bar);
      }
    }
    Bar last = meter.bars().get(meter.bars().size() - 1);
    double end = last.firstBeat() + last.beats();
    return end > position ? end : Double.POSITIVE_INFINITY;
  }

  private static double middle(Bar bar) {
    return bar.beats() % 2 == 0 && bar.beats() > 2
        ? bar.firstBeat() + bar.beats() / 2.0
        : bar.firstBeat();
  }
}
