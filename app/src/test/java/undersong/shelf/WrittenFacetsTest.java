package undersong.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SampleReadings;
import undersong.reading.Tuning;

class WrittenFacetsTest {
  private final WrittenFacets written = new WrittenFacets();

  @Test
  void whatIsTakenFromBeforeReadsAsIfWrittenAnew() {
    Reading first = SampleReadings.full();
    Reading second = first.with(Facet.TUNING, Derived.of(new Tuning(7, 0.25)));
    Reading third = SampleReadings.full();
    for (Reading reading : new Reading[] {first, second, first, third, second}) {
      assertThat(written.print(reading)).isEqualTo(ReadingJson.print(reading));
      assertThat(ReadingJson.parseReading(written.print(reading))).isEqualTo(reading);
    }
  }
}
