package undersong.feature;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.time.FrameClock;

/** Chroma and tuning of chords whose frequencies are equal-tempered after ISO 16 (A4 = 440 Hz). */
final class ChromagramTest {

  /** The spectrum of held tones with a few harmonics. */
  private static FrameMatrix spectrum(double tuningCents, int... pitches) {
    float[] samples = new float[3 * 22_050];
    for (int pitch : pitches) {
      double hz = 440 * Math.pow(2, (pitch - 69) / 12.0 + tuningCents / 1200);
      for (int harmonic = 1; harmonic <= 4; harmonic++) {
        for (int n = 0; n < samples.length; n++) {
          samples[n] +=
              (float) (0.1 / harmonic * Math.sin(2 * Math.PI * hz * harmonic * n / 22_050));
        }
      }
    }
    EarSpectra spectra = new EarSpectraMaker().make(samples, 22_050, 0, 50);
    return FrameMatrix.of(new FrameClock(22_050, 441), 264, spectra.tonal()[0]);
  }

  private static List<Integer> strongest(FrameMatrix chroma, int count) {
    return IntStream.range(0, 12)
        .boxed()
        .sorted(Comparator.comparing((Integer pitchClass) -> -chroma.at(25, pitchClass)))
        .limit(count)
        .toList();
  }

  @ParameterizedTest
  @ValueSource(doubles = {-45, -20, 0, 13, 40})
  void hearsTheMembersOfATriad(double tuningCents) {
    FrameMatrix spectrum = spectrum(tuningCents, 48, 60, 64, 67); // C3, C4, E4, G4

    assertThat(strongest(Chromagram.chords(spectrum, tuningCents), 3))
        .containsExactlyInAnyOrder(0, 4, 7);
  }

  @Test
  void bassRangeHearsTheLowestTone() {
    FrameMatrix spectrum = spectrum(0, 40, 71, 74, 79); // E2 under B4, D5, G5

    assertThat(strongest(Chromagram.of(spectrum, 0, 30, 150), 1)).containsExactly(4);
    assertThat(strongest(Chromagram.bass(spectrum, 0), 1)).containsExactly(4);
  }

  @ParameterizedTest
  @CsvSource({"-48", "-31", "-12.5", "0", "7", "25", "44"})
  void findsTheTuning(double tuningCents) {
    // Octaves and fifths only: the fifth harmonic of a third would lie 14 cents off by nature.
    TuningHistogram tuning = TuningHistogram.of(spectrum(tuningCents, 45, 52, 57, 64, 69, 76));

    assertThat(tuning.meanCents()).isCloseTo(tuningCents, within(1.5));
    assertThat(tuning.concentration()).isGreaterThan(0.95);
    double all = IntStream.range(-50, 50).mapToDouble(tuning::at).sum();
    assertThat(all).isCloseTo(1, within(1e-9));
  }

  @Test
  void silenceHasNoChromaAndNoTuning() {
    FrameMatrix silence = FrameMatrix.of(new FrameClock(22_050, 882), 264, new float[264 * 5]);

    FrameMatrix chroma = Chromagram.chords(silence, 10);
    assertThat(chroma.frames()).isEqualTo(5);
    assertThat(IntStream.range(0, 12).mapToDouble(p -> chroma.at(3, p)).sum()).isZero();
    assertThat(TuningHistogram.of(silence).meanCents()).isZero();
    assertThat(TuningHistogram.of(silence).concentration()).isZero();
  }

  @Test
  void refusesOtherSpectraAndEmptyRanges() {
    FrameMatrix rhythm = FrameMatrix.of(new FrameClock(22_050, 441), 90, new float[90]);
    FrameMatrix tonal = FrameMatrix.of(new FrameClock(22_050, 441), 264, new float[264]);

    assertThatThrownBy(() -> Chromagram.chords(rhythm, 0)).hasMessageContaining("90 bins");
    assertThatThrownBy(() -> TuningHistogram.of(rhythm)).hasMessageContaining("90 bins");
    assertThatThrownBy(() -> Chromagram.of(tonal, 0, 200, 100)).hasMessageContaining("200");
  }
}
