package undersong.technique;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.reading.Bar;
import undersong.reading.Meter;
import undersong.reading.TimeSignature;
import undersong.time.Span;

class BarRangeTest {
  /** Bars 1 to 3, two seconds each. */
  private static final Meter METER = new Meter(List.of(bar(1), bar(2), bar(3)), 1, List.of());

  private static Bar bar(int number) {
    Span span = new Span(2 * (number - 1.0), 2.0 * number);
    return new Bar(number, 4 * (number - 1), 4, TimeSignature.FOUR_FOUR, span);
  }

  @Test
  void countsAnEarlyChordToTheBarItIsMeantFor() {
    assertThat(BarRange.of(METER, new Span(1.75, 3.75))).contains(new BarRange(2, 2));
  }

  @Test
  void namesTheBarOfAShortMoment() {
    assertThat(BarRange.of(METER, new Span(4.1, 4.2))).contains(new BarRange(3, 3));
  }

  @Test
  void knowsNoBarWithoutPulse() {
    assertThat(BarRange.of(new Meter(List.of(), 0, List.of()), new Span(0, 1))).isEmpty();
    assertThat(BarRange.of(METER, new Span(8, 9))).isEmpty();
  }
}
