package undersong.bench.peers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.bench.metrics.MelodyMetrics;
import undersong.bench.metrics.PitchCurve;
import undersong.reading.Melody;
import undersong.reading.PitchStretch;

class ProgramTest {
  /**
   * Raw pitch accuracy counts a guess given as a negative frequency, overall accuracy does not: J.
   * Salamon and others, "Melody Extraction from Polyphonic Music Signals", IEEE Signal Processing
   * Magazine 31(2), 2014; the sign is mir_eval's (melody.freq_to_voicing, from memory).
   */
  @Test
  void pitchInRestsIsAGuessWithoutVoicing() {
    Melody melody =
        new Melody(
            List.of(),
            List.of(new PitchStretch(0, 0.04, List.of(69.0, 69.0))),
            List.of(new PitchStretch(0.08, 0.04, List.of(57.0, 57.0))));
    double[] seconds = {0, 0.02, 0.04, 0.06, 0.08, 0.1, 0.12, 0.14};
    double[] hertz = {440, 440, 440, 440, 220, 220, 220, 0};
    MelodyMetrics metrics =
        MelodyMetrics.of(new PitchCurve(seconds, hertz), Program.curve(melody, 0, 0.16));
    assertThat(metrics.rawPitch()).isEqualTo(1);
    assertThat(metrics.voicingRecall()).isCloseTo(4 / 7.0, within(1e-9));
    assertThat(metrics.falseAlarms()).isZero();
    assertThat(metrics.overall()).isCloseTo(5 / 8.0, within(1e-9));
  }
}
