package undersong.technique;

import java.util.Optional;
import undersong.reading.Bar;
import undersong.reading.Meter;
import undersong.time.Span;

/** Bars of a song by their numbers, both inclusive; 0 is a pick-up before the first full bar. */
public record BarRange(int first, int last) {
  /** A bar that is touched by less than this share of its length is not meant. */
  private static final double TOUCHED = 0.3;

  public BarRange {
    if (first < 0 || last < first) {
      throw new IllegalArgumentException(
          "Bars %d to %d must be from 0 and in order.".formatted(first, last));
    }
  }

  /**
   * The bars a span stands in. A bar only grazed at either end is left out, so that a chord which
   * comes early belongs to the bar it is meant for. Empty where no bar is met.
   */
  public static Optional<BarRange> of(Meter meter, Span span) {
    int first = -1;
    int last = -1;
    Bar most = null;
    double mostSeconds = 0;
    for (Bar bar : meter.bars()) {
      double seconds = bar.span().overlapSeconds(span);
      if (seconds > TOUCHED * bar.span().lengthSeconds()) {
        first = first < 0 ? bar.number() : first;
        last = bar.number();
      }
      if (seconds > mostSeconds) {
        most = bar;
        mostSeconds = seconds;
      }
    }
    if (first >= 0) {
      return Optional.of(new BarRange(first, last));
    }
    return Optional.ofNullable(most).map(bar -> new BarRange(bar.number(), bar.number()));
  }

  public int bars() {
    return last - first + 1;
  }
}
