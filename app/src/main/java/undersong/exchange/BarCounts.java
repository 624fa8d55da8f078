package undersong.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.reading.Bar;
import undersong.reading.Beats;
import undersong.reading.Facet;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;

/**
 * The bar of each beat of the grid. Beats before the first bar count up to it and beats after the
 * last go on counting, in the meter of their neighbor.
 */
final class BarCounts {
  private final List<Optional<Bar>> bars;
  private final List<Integer> numbers;
  private final List<TimeSignature> signatures;

  private BarCounts(
      List<Optional<Bar>> bars, List<Integer> numbers, List<TimeSignature> signatures) {
    this.bars = bars;
    this.numbers = numbers;
    this.signatures = signatures;
  }

  static BarCounts of(Reading reading) {
    int beats = reading.find(Facet.BEATS).map((Beats b) -> b.grid().size()).orElse(0);
    List<Bar> all = reading.find(Facet.METER).map(Meter::bars).orElse(List.of());
    List<Optional<Bar>> bars = new ArrayList<>();
    List<Integer> numbers = new ArrayList<>();
    List<TimeSignature> signatures = new ArrayList<>();
    int next = 0;
    for (int beat = 0; beat < beats && !all.isEmpty(); beat++) {
      while (next < all.size() - 1 && beat >= all.get(next).firstBeat() + all.get(next).beats()) {
        next++;
      }
      Bar near = all.get(next);
      int offset = beat - near.firstBeat();
      boolean inside = offset >= 0 && offset < near.beats();
      bars.add(inside ? Optional.of(near) : Optional.empty());
      int wrapped = inside ? offset : Math.floorMod(offset, near.signature().beats());
      numbers.add(1 + wrapped);
      signatures.add(near.signature());
    }
    return new BarCounts(bars, numbers, signatures);
  }

  Optional<Bar> barOf(int beat) {
    return beat < bars.size() ? bars.get(beat) : Optional.empty();
  }

  /** 1 = downbeat; empty where the reading has no bars at all. */
  Optional<Integer> numberInBar(int beat) {
    return beat < numbers.size() ? Optional.of(numbers.get(beat)) : Optional.empty();
  }

  /** 4/4 where the reading has no bars. */
  TimeSignature signatureOf(int beat) {
    return beat < signatures.size() ? signatures.get(beat) : TimeSignature.FOUR_FOUR;
  }
}
