package undersong.feature;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;

/** Java's spectra against those the network was trained on (training/golden.py). */
final class GoldenSpectraTest {
  @Test
  void theSignalIsTheSame() {
    JsonNode signal = GoldenSignal.values().path("signal");
    float[] samples = GoldenSignal.samples();
    for (int i = 0; i < signal.path("samplesAt").size(); i++) {
      assertThat((double) samples[signal.path("samplesAt").get(i).asInt()])
          .isCloseTo(signal.path("samples").get(i).asDouble(), within(1e-6));
    }
  }

  @Test
  void theSpectraAreTheSame() {
    EarSpectra spectra = GoldenSignal.spectra();
    JsonNode rows = GoldenSignal.values().path("features");
    assertThat(rows.size()).isEqualTo(40);

    for (JsonNode row : rows) {
      boolean tonal = row.path("plane").asText().equals("tonal");
      float[] plane = tonal ? spectra.tonal()[row.path("channel").asInt()] : spectra.rhythm();
      int bins = tonal ? EarSpectra.TONAL_BINS : EarSpectra.RHYTHM_BINS;
      int offset = row.path("frame").asInt() * bins;
      for (int i = 0; i < row.path("values").size(); i++) {
        int bin = i * row.path("everyBin").asInt();
        assertThat((double) plane[offset + bin])
            .as("%s, frame %s, bin %d", row.path("plane"), row.path("frame"), bin)
            .isCloseTo(row.path("values").get(i).asDouble(), within(1e-3));
      }
    }
  }
}
