package undersong.notation;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Bar;
import undersong.reading.Meter;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Bars on paper: where each begins, counted in ticks from the first. What sounds before the first
 * heard bar gets a bar of its own, as long as it needs.
 */
final class TickGrid {
  /**
   * A bar on paper.
   *
   * @param bar as heard
   * @param startTick counted from the first bar on paper
   * @param pickUp whether it is shorter than its signature says
   */
  record PaperBar(Bar bar, int startTick, boolean pickUp) {
    int beatTicks() {
      return WrittenBar.beatTicks(bar.signature());
    }

    int ticks() {
      return bar.beats() * beatTicks();
    }
  }

  private final BeatGrid grid;
  private final List<PaperBar> bars;
  private final int firstBeat;

  private TickGrid(BeatGrid grid, List<PaperBar> bars, int firstBeat) {
    this.grid = grid;
    this.bars = bars;
    this.firstBeat = firstBeat;
  }

  /**
   * @param earliestSeconds when the first note sounds
   */
  static TickGrid of(BeatGrid grid, Meter meter, double earliestSeconds) {
    List<PaperBar> bars = new ArrayList<>();
    if (meter.bars().isEmpty()) {
      return new TickGrid(grid, bars, 0);
    }
    Bar first = meter.bars().get(0);
    int before = first.firstBeat() - (int) Math.floor(grid.positionAt(earliestSeconds) + 0.25);
    int tick = 0;
    int firstBeat = first.firstBeat();
    if (before > 0) {
      int beats = Math.min(before, first.signature().beats());
      firstBeat -= beats;
      double start = Math.max(0, grid.secondsAtPosition(firstBeat));
      Span span =
          new Span(Math.min(start, first.span().startSeconds()), first.span().startSeconds());
      // Beats before the grid's first have no number of their own in a heard bar; only paper has
      // it.
      Bar paper = new Bar(0, Math.max(0, firstBeat), beats, first.signature(), span);
      bars.add(new PaperBar(paper, 0, true));
      tick = bars.get(0).ticks();
    }
    for (Bar bar : meter.bars()) {
      PaperBar paper = new PaperBar(bar, tick, bar.beats() < bar.signature().beats());
      bars.add(paper);
      tick += paper.ticks();
    }
    return new TickGrid(grid, bars, firstBeat);
  }

  List<PaperBar> bars() {
    return bars;
  }

  /** Beats on paper in all. */
  int beats() {
    return bars.stream().mapToInt(bar -> bar.bar().beats()).sum();
  }

  /** Beats on paper before a time; fractional, negative before the first bar. */
  double beatAt(double seconds) {
    return grid.positionAt(seconds) - firstBeat;
  }

  /** Seconds a beat on paper lasts. */
  double beatSeconds(int beat) {
    return grid.secondsAtPosition(firstBeat + beat + 1.0)
        - grid.secondsAtPosition(firstBeat + beat);
  }

  /** Where each beat on paper begins, in ticks, with the end of the last at the end. */
  int[] beatTicks() {
    int[] ticks = new int[beats() + 1];
    int beat = 0;
    int tick = 0;
    for (PaperBar bar : bars) {
      for (int i = 0; i < bar.bar().beats(); i++) {
        ticks[beat++] = tick;
        tick += bar.beatTicks();
      }
    }
    ticks[beat] = tick;
    return ticks;
  }
}
