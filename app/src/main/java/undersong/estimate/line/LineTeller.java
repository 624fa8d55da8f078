package undersong.estimate.line;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import undersong.reading.LineKind;
import undersong.time.BeatGrid;

/** Says of what kind a line is and where it stands. */
final class LineTeller {
  /** Onsets are even that lie this near to their usual distance, as a ratio. */
  private static final double EVEN = 0.2;

  private static final double MOSTLY = 0.6;
  private static final double CHORD_SKIP_SEMITONES = 2.5;
  private static final double HELD_BEATS = 1.5;
  private static final double SHORT_SECONDS = 0.35;
  private static final double SOON_OVER_SHARE = 0.6;
  private static final int FEWEST_PLACES = 4;

  private LineTeller() {}

  /**
   * @param notes by start, at least two
   */
  static Optional<LineKind> kind(List<HeardNote> notes, BeatGrid grid) {
    double[] apart = new double[notes.size() - 1];
    double[] lengths = new double[notes.size()];
    double skips = 0;
    for (int i = 0; i < notes.size(); i++) {
      lengths[i] = notes.get(i).event().span().lengthSeconds();
      if (i > 0) {
        apart[i - 1] = notes.get(i).start() - notes.get(i - 1).start();
        skips += Math.abs(notes.get(i).pitch() - notes.get(i - 1).pitch()) / apart.length;
      }
    }
    double usual = median(apart);
    double length = median(lengths);
    double even =
        (double) Arrays.stream(apart).filter(a -> Math.abs(a - usual) <= EVEN * usual).count()
            / Math.max(1, apart.length);
    double beat = grid.isEmpty() ? 0.5 : 60 / grid.medianBpm();
    if (length >= HELD_BEATS * beat) {
      return Optional.of(LineKind.HELD);
    }
    if (even >= MOSTLY && skips >= CHORD_SKIP_SEMITONES && usual <= 1.1 * beat) {
      return Optional.of(LineKind.ARPEGGIO);
    }
    return length <= SHORT_SECONDS && length <= SOON_OVER_SHARE * usual
        ? Optional.of(LineKind.PLUCKED)
        : Optional.empty();
  }

  /** The middle of its notes' places; empty where few of them tell. */
  static Optional<Double> placement(List<HeardNote> notes) {
    double[] places =
        notes.stream()
            .map(HeardNote::placement)
            .filter(OptionalDouble::isPresent)
            .mapToDouble(OptionalDouble::getAsDouble)
            .toArray();
    return places.length < FEWEST_PLACES ? Optional.empty() : Optional.of(median(places));
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted.length == 0 ? 0 : sorted[sorted.length / 2];
  }
}
