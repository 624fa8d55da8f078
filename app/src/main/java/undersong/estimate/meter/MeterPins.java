package undersong.estimate.meter;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;

/** What the listener said about bars, as prices on beats; what was said later costs more. */
final class MeterPins {
  private static final double FIRST_PRICE = 200;

  private final List<Correction> placed = new ArrayList<>();
  private final List<Correction> unplaced = new ArrayList<>();
  private final BeatGrid grid;

  private MeterPins(BeatGrid grid) {
    this.grid = grid;
  }

  static MeterPins of(Corrections corrections, BeatGrid grid, double durationSeconds) {
    MeterPins pins = new MeterPins(grid);
    for (CorrectionEntry entry : corrections.entries()) {
      Correction correction = entry.correction();
      if (correction instanceof Correction.DownbeatAt downbeat) {
        boolean inside =
            !grid.isEmpty() && downbeat.seconds() >= 0 && downbeat.seconds() <= durationSeconds;
        (inside ? pins.placed : pins.unplaced).add(downbeat);
      } else if (correction instanceof Correction.MeterOver over) {
        boolean inside = !grid.isEmpty() && over.span().startSeconds() < durationSeconds;
        (inside ? pins.placed : pins.unplaced).add(over);
      }
    }
    return pins;
  }

  boolean isEmpty() {
    return placed.isEmpty();
  }

  List<Correction> unplaced() {
    return List.copyOf(unplaced);
  }

  /** Lengths of bars that were asked for. */
  Set<Integer> lengths() {
    Set<Integer> lengths = new TreeSet<>();
    for (Correction correction : placed) {
      if (correction instanceof Correction.MeterOver over) {
        lengths.add(over.signature().beats());
      }
    }
    return lengths;
  }

  /** Where a said meter begins and ends. */
  Set<Integer> borders() {
    Set<Integer> borders = new TreeSet<>();
    for (Correction correction : placed) {
      if (correction instanceof Correction.MeterOver over) {
        borders.add(first(over));
        borders.add(end(over));
      }
    }
    return borders;
  }

  /**
   * Takes the price off every place that contradicts what was said.
   *
   * @param worth written: worth[beat][lengthIndex][beatInBar]
   */
  void price(double[][][] worth, int[] lengths) {
    double price = FIRST_PRICE;
    for (Correction correction : placed) {
      if (correction instanceof Correction.DownbeatAt downbeat) {
        double[][] here = worth[grid.nearestBeat(downbeat.seconds())];
        for (double[] length : here) {
          for (int place = 1; place < length.length; place++) {
            length[place] -= price;
          }
        }
      } else if (correction instanceof Correction.MeterOver over) {
        for (int beat = first(over); beat < end(over); beat++) {
          for (int i = 0; i < lengths.length; i++) {
            for (int place = 0; place < lengths[i]; place++) {
              worth[beat][i][place] -= lengths[i] == over.signature().beats() ? 0 : price;
            }
          }
        }
      }
      price *= 1.5;
    }
  }

  /** Corrections that the decoded bars do not follow after all, because a newer one forbids it. */
  List<Correction> broken(int[] beatInBar, int[] length) {
    List<Correction> broken = new ArrayList<>();
    for (Correction correction : placed) {
      if (correction instanceof Correction.DownbeatAt downbeat) {
        if (beatInBar[grid.nearestBeat(downbeat.seconds())] != 0) {
          broken.add(correction);
        }
      } else if (correction instanceof Correction.MeterOver over) {
        int kept = 0;
        for (int beat = first(over); beat < end(over); beat++) {
          kept += length[beat] == over.signature().beats() ? 1 : 0;
        }
        if (kept == 0) {
          broken.add(correction);
        }
      }
    }
    return broken;
  }

  /** Whether a beat was said to divide in three; the newest word counts. */
  boolean compoundAt(int beat, boolean otherwise) {
    for (int i = placed.size() - 1; i >= 0; i--) {
      if (placed.get(i) instanceof Correction.MeterOver over
          && beat >= first(over)
          && beat < end(over)) {
        TimeSignature signature = over.signature();
        return signature.compound();
      }
    }
    return otherwise;
  }

  private int first(Correction.MeterOver over) {
    return grid.nearestBeat(over.span().startSeconds());
  }

  private int end(Correction.MeterOver over) {
    double position = grid.positionAt(over.span().endSeconds());
    return Math.max(first(over) + 1, Math.min(grid.size(), (int) Math.round(position)));
  }
}
