package undersong.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.time.Span;

/** How long a bar usually is: common practice, no source. */
class MeterTest {
  private static Meter barsOf(double seconds) {
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i < 9; i++) {
      Span span = new Span(i * seconds, (i + 1) * seconds);
      bars.add(new Bar(i + 1, 4 * i, 4, TimeSignature.FOUR_FOUR, span));
    }
    return new Meter(bars, 1, List.of());
  }

  @Test
  void aBarOfSeventyBeatsAMinuteHoldsTwoOfAUsualLength() {
    assertThat(barsOf(4 * 60 / 70.0).usualBarsPerBar()).isEqualTo(2);
    assertThat(barsOf(4 * 60 / 120.0).usualBarsPerBar()).isEqualTo(1);
    assertThat(new Meter(List.of(), 0, List.of()).usualBarsPerBar()).isEqualTo(1);
  }
}
