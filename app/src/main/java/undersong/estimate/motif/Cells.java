package undersong.estimate.motif;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Bar;
import undersong.reading.NoteEvent;
import undersong.time.BeatGrid;

/** Cuts a part into cells: half bars, bars and pairs of bars. */
final class Cells {
  private static final double EARLY_BEATS = 0.12;

  private final List<Bar> bars;
  private final BeatGrid grid;
  private final int unitsPerBeat;

  Cells(List<Bar> bars, BeatGrid grid, int tatumsPerBeat) {
    this.bars = bars;
    this.grid = grid;
    this.unitsPerBeat = tatumsPerBeat == 3 ? 3 : 4;
  }

  int unitsPerBeat() {
    return unitsPerBeat;
  }

  /**
   * Cells of so many bars (0.5 for half a bar), in order, those without notes left out.
   *
   * @param notes by start
   */
  List<Cell> of(List<NoteEvent> notes, double lengthBars) {
    List<Cell> cells = new ArrayList<>();
    double[] beats =
        notes.stream().mapToDouble(n -> grid.positionAt(n.span().startSeconds())).toArray();
    int first = 0;
    for (int b = 0; b < bars.size(); b++) {
      Bar bar = bars.get(b);
      int halves = lengthBars < 1 && bar.beats() % 2 == 0 ? 2 : 1;
      boolean cannotHalve = lengthBars < 1 && halves == 1;
      if (cannotHalve || (lengthBars > 1 && b + 1 >= bars.size())) {
        continue;
      }
      double length =
          lengthBars < 1
              ? bar.beats() / 2.0
              : lengthBars > 1 ? bar.beats() + bars.get(b + 1).beats() : bar.beats();
      while (first < beats.length && beats[first] < bar.firstBeat() - EARLY_BEATS) {
        first++;
      }
      for (int half = 0; half < halves; half++) {
        double start = bar.firstBeat() + half * length;
        Cell cell = cell(cells.size(), notes, beats, first, start, length, bar.number());
        if (cell.size() > 0) {
          cells.add(cell);
        }
      }
    }
    return cells;
  }

  private Cell cell(
      int index,
      List<NoteEvent> notes,
      double[] beats,
      int first,
      double start,
      double length,
      int bar) {
    List<Integer> offsets = new ArrayList<>();
    List<NoteEvent> inside = new ArrayList<>();
    long rhythm = 0;
    for (int i = first; i < beats.length && beats[i] < start + length - EARLY_BEATS; i++) {
      int offset = (int) Math.round((beats[i] - start) * unitsPerBeat);
      boolean taken = !offsets.isEmpty() && offsets.get(offsets.size() - 1) >= offset;
      if (beats[i] >= start - EARLY_BEATS && offset >= 0 && !taken) {
        offsets.add(offset);
        rhythm |= 1L << (offset & 63);
        inside.add(notes.get(i));
      }
    }
    return new Cell(index, start, length, bar, offsets, rhythm, inside);
  }
}
