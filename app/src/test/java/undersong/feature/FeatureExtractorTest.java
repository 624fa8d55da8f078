package undersong.feature;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.audio.AudioReader;
import undersong.audio.Recording;
import undersong.audio.SampleStream;
import undersong.audio.SoundFiles;
import undersong.work.Cancellation;
import undersong.work.Progress;
import undersong.work.Trouble;

final class FeatureExtractorTest {
  private static final Cancellation NEVER = new Cancellation();

  /** Samples of a wave, in blocks of sizes that a seeded generator chooses. */
  private static SampleStream stream(double seconds, SoundFiles.Wave wave, long seed) {
    return sink -> {
      Random random = new Random(seed);
      int frames = (int) Math.round(seconds * 44_100);
      int at = 0;
      while (at < frames) {
        int count = Math.min(frames - at, 1 + random.nextInt(seed == 0 ? 44_100 : 9_000));
        float[] block = new float[2 * count];
        for (int i = 0; i < 2 * count; i++) {
          block[i] = (float) wave.at((at + i / 2) / 44_100.0, i % 2);
        }
        sink.accept(block, count);
        at += count;
      }
    };
  }

  private static Features extract(SampleStream samples, double seconds) {
    return new FeatureExtractor()
        .extract("hash", samples, seconds, EarSpectraSink.NOBODY, Progress.SILENT, NEVER);
  }

  /** ISO 16: A4 = 440 Hz; MIDI pitch 69 lies in bin 3 * (69 - 21) + 1. */
  @Test
  void putsStandardPitchIntoItsBin() {
    Features features = extract(stream(3, SoundFiles.sine(440, 0.3), 0), 3);

    for (FrameMatrix spectrum :
        new FrameMatrix[] {features.longSpectrum(), features.shortSpectrum()}) {
      int frame = spectrum.clock().frameAt(1.5);
      int loudest = 0;
      for (int bin = 0; bin < spectrum.bins(); bin++) {
        if (spectrum.at(frame, bin) > spectrum.at(frame, loudest)) {
          loudest = bin;
        }
      }
      assertThat(loudest).isEqualTo(3 * (69 - 21) + 1);
      assertThat(27.5 * Math.pow(2, (loudest - 1) / 36.0)).isCloseTo(440, within(0.001));
      // RMS 0.1 means an amplitude of 0.1414, and the triangle's top passes the main lobe whole.
      assertThat(Math.expm1(spectrum.at(frame, loudest)) / 1000).isBetween(0.13, 0.18);
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {1.0, 1.013, 1.2071, 1.444})
  void hearsAStrokeWithinOneFrame(double strokeSeconds) {
    for (double level : new double[] {0.9, 0.05}) {
      Features features =
          extract(
              stream(
                  3,
                  (t, c) ->
                      t < strokeSeconds
                          ? 0
                          : level
                              * Math.exp(-(t - strokeSeconds) * 8)
                              * Math.sin(2 * Math.PI * 311 * (t - strokeSeconds)),
                  0),
              3);
      FrameSeries onsets = features.onsetStrength();
      int loudest = 0;
      for (int frame = 0; frame < onsets.frames(); frame++) {
        if (onsets.at(frame) > onsets.at(loudest)) {
          loudest = frame;
        }
      }
      assertThat(onsets.clock().secondsAt(loudest)).isCloseTo(strokeSeconds, within(0.02));
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void blockSizesChangeNothing(long seed) {
    Random notes = new Random(seed);
    double hz = 60 + notes.nextInt(900);
    double beat = 0.3 + 0.4 * notes.nextDouble();
    SoundFiles.Wave wave =
        (t, c) -> (c == 0 ? 0.4 : 0.3) * Math.sin(2 * Math.PI * hz * t) * Math.exp(-3 * (t % beat));

    assertThat(extract(stream(7.3, wave, seed), 7.3)).isEqualTo(extract(stream(7.3, wave, 0), 7.3));
  }

  @Test
  void everyFeatureLastsAsLongAsTheRecording() {
    Features features = extract(stream(12.34, SoundFiles.sine(200, 0.2), 0), 12.34);

    assertThat(features.durationSeconds()).isCloseTo(12.34, within(1e-9));
    assertThat(features.onsetStrength().frames()).isEqualTo(617);
    assertThat(features.bandOnsets().frames()).isEqualTo(617);
    assertThat(features.longSpectrum().frames()).isEqualTo(309);
    assertThat(features.shortSpectrum().frames()).isEqualTo(309);
    assertThat(features.tempogram().frames()).isEqualTo(25);
    assertThat(features.bandLevelsDb().frames()).isEqualTo(124);
    assertThat(features.sideLevelsDb().frames()).isEqualTo(124);
    assertThat(features.loudness().momentaryLufs().frames()).isEqualTo(124);
    assertThat(features.heard()).isEmpty();
  }

  @Test
  void handsTheEarEveryFrameOnceAndInOrder() {
    int[] next = {0};
    new FeatureExtractor()
        .extract(
            "hash",
            stream(12.34, SoundFiles.sine(200, 0.2), 0),
            12.34,
            chunk -> {
              assertThat(chunk.firstFrame()).isEqualTo(next[0]);
              assertThat(chunk.tonal()).hasNumberOfRows(3);
              assertThat(chunk.tonal()[1]).hasSize(264 * chunk.frames());
              assertThat(chunk.rhythm()).hasSize(90 * chunk.frames());
              next[0] += chunk.frames();
            },
            Progress.SILENT,
            NEVER);

    assertThat(next[0]).isEqualTo(617);
  }

  @Test
  void levelsSayWhichBandAndWhichSide() {
    // 1 kHz in the middle with RMS 0.1 (-20 dBFS); 100 Hz at the sides with RMS 0.01 (-40 dBFS).
    Features features =
        extract(
            stream(
                4,
                (t, c) ->
                    0.1 * Math.sqrt(2) * Math.sin(2 * Math.PI * 1000 * t)
                        + (c == 0 ? 1 : -1) * 0.01 * Math.sqrt(2) * Math.sin(2 * Math.PI * 100 * t),
                0),
            4);
    int frame = 20;

    assertThat(features.bandLevelsDb().at(frame, 3)).isCloseTo(-20, within(0.05f));
    assertThat(features.bandLevelsDb().at(frame, 6)).isCloseTo(-20, within(0.05f));
    assertThat(features.bandLevelsDb().at(frame, 1)).isLessThan(-80);
    assertThat(features.sideLevelsDb().at(frame, 1)).isCloseTo(-40, within(0.05f));
    assertThat(features.sideLevelsDb().at(frame, 6)).isCloseTo(-40, within(0.05f));
    assertThat(features.sideLevelsDb().at(frame, 3)).isLessThan(-80);
    assertThat(features.centroidHz().at(frame)).isCloseTo(1000, within(2f));
    assertThat(features.rollOffHz().at(frame)).isCloseTo(1000, within(12f));
    assertThat(features.flatness().at(frame)).isLessThan(0.01f);
  }

  @Test
  void noiseIsFlatAndToneIsNot() {
    Random noise = new Random(11);
    float[] values = new float[4 * 44_100];
    for (int i = 0; i < values.length; i++) {
      values[i] = (float) (0.1 * noise.nextGaussian());
    }
    Features features =
        extract(stream(4, (t, c) -> values[Math.min(values.length - 1, (int) (t * 44_100))], 0), 4);

    // Expected for white noise under any window: exp(-0.5772) = 0.561.
    assertThat(features.flatness().at(20)).isCloseTo(0.561f, within(0.05f));
    assertThat(features.centroidHz().at(20)).isCloseTo(11_025, within(600f));
    assertThat(features.rollOffHz().at(20)).isCloseTo(0.85f * 22_050, within(600f));
  }

  @ParameterizedTest
  @ValueSource(doubles = {72, 120, 168})
  void tempogramPeaksAtTheTempo(double bpm) {
    double beat = 60 / bpm;
    Features features =
        extract(
            stream(
                20,
                (t, c) ->
                    0.5 * Math.exp(-30 * (t % beat)) * Math.sin(2 * Math.PI * 900 * (t % beat)),
                0),
            20);
    FrameMatrix tempogram = features.tempogram();
    int strongest = 0;
    for (int bin = 0; bin < tempogram.bins(); bin++) {
      if (tempogram.at(20, bin) > tempogram.at(20, strongest)) {
        strongest = bin;
      }
    }
    assertThat(30 * Math.pow(2, strongest / 24.0) / bpm).isBetween(0.97, 1.03);
  }

  @Test
  void refusesSilenceAndStopsOnRequest() {
    assertThatThrownBy(() -> extract(stream(3, (t, c) -> 0, 0), 3))
        .isInstanceOf(Trouble.UnreadableRecording.class)
        .hasMessageContaining("silent");

    Cancellation wish = new Cancellation();
    assertThatThrownBy(
            () ->
                new FeatureExtractor()
                    .extract(
                        "hash",
                        stream(9, SoundFiles.sine(200, 0.2), 0),
                        9,
                        chunk -> wish.cancel(),
                        Progress.SILENT,
                        wish))
        .isInstanceOf(Trouble.Cancelled.class);
  }

  @Test
  void readsAFileAndTellsHowFarItIs(@TempDir Path folder) throws Exception {
    Path file = SoundFiles.wav(folder.resolve("a.wav"), 48_000, 2, 5, SoundFiles.sine(440, 0.3));
    Recording recording = AudioReader.probe(file, NEVER);
    double[] last = {-1};

    Features features =
        new FeatureExtractor()
            .extract(
                recording,
                (stage, share) -> {
                  assertThat(share).isBetween(0.0, 1.0);
                  last[0] = share;
                },
                NEVER);

    assertThat(last[0]).isEqualTo(1);
    assertThat(features.contentHash()).isEqualTo(recording.contentHash());
    assertThat(features.durationSeconds()).isCloseTo(5, within(0.001));
    assertThat(features.onsetStrength().frames()).isEqualTo(250);
  }

  /** ITU-R BS.1770-4, annex 1: a 997 Hz sine at full scale in one channel reads -3.01 LKFS. */
  @Test
  void countsAFileOfOneChannelOnce(@TempDir Path folder) throws Exception {
    for (int channels : new int[] {1, 2}) {
      Path file =
          SoundFiles.wav(
              folder.resolve(channels + ".wav"), 48_000, channels, 5, SoundFiles.sine(997, 0.5));

      Features features =
          new FeatureExtractor().extract(AudioReader.probe(file, NEVER), Progress.SILENT, NEVER);

      double expected = -3.01 + 20 * Math.log10(0.5) + (channels == 1 ? 0 : 3.01);
      assertThat(features.loudness().integratedLufs()).isCloseTo(expected, within(0.1));
    }
  }
}
