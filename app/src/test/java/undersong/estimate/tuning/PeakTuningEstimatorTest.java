package undersong.estimate.tuning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.estimate.SoundedFeatures;
import undersong.feature.Features;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Reading;
import undersong.reading.Tuning;

class PeakTuningEstimatorTest {
  private static Tuning tuning(Features features, Corrections corrections) {
    return new PeakTuningEstimator().estimate(features, Reading.empty(4), corrections).value();
  }

  private static Features chord(double cents) {
    return new SoundedFeatures(4, cents).sound(0, 4, 57, 60, 64, 69, 72).features();
  }

  /** Distance from A4 = 440 Hz (ISO 16), built into the tones. */
  @ParameterizedTest
  @ValueSource(doubles = {-40, -20, 0, 15, 30, 45})
  void hearsHowFarTheTonesLieFromConcertPitch(double cents) {
    Tuning heard = tuning(chord(cents), Corrections.NONE);
    assertThat(heard.cents()).isCloseTo(cents, within(4.0));
    assertThat(heard.probability()).isGreaterThan(0.8);
  }

  @Test
  void saysNothingOfSilence() {
    Features silence = new SoundedFeatures(4, 0).features();
    assertThat(tuning(silence, Corrections.NONE)).isEqualTo(new Tuning(0, 0));
  }

  @Test
  void takesTheNewestCorrectionAsSaid() {
    Corrections said =
        new Corrections(
            List.of(
                new CorrectionEntry(1, "a", Instant.EPOCH, new Correction.TuningIs(12)),
                new CorrectionEntry(2, "a", Instant.EPOCH, new Correction.TuningIs(-31))));
    assertThat(tuning(chord(10), said)).isEqualTo(new Tuning(-31, 1));
  }

  @Test
  void answersTheSameTwice() {
    assertThat(tuning(chord(7), Corrections.NONE)).isEqualTo(tuning(chord(7), Corrections.NONE));
  }
}
