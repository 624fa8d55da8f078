package undersong.render.focus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import undersong.audio.SampleStream;

final class FocusRendererTest {
  private static final int RATE = 44_100;

  @TempDir Path folder;

  private interface Wave {
    double at(double seconds, int channel);
  }

  /** A wave in blocks of uneven sizes. */
  private static SampleStream stream(double seconds, Wave wave) {
    return sink -> {
      Random sizes = new Random(5);
      int frames = (int) Math.round(seconds * RATE);
      for (int at = 0; at < frames; ) {
        int count = Math.min(frames - at, 1 + sizes.nextInt(20_000));
        float[] block = new float[2 * count];
        for (int i = 0; i < block.length; i++) {
          block[i] = (float) wave.at((at + i / 2) / (double) RATE, i % 2);
        }
        sink.accept(block, count);
        at += count;
      }
    };
  }

  private static double tone(double hertz, double seconds) {
    return Math.sin(2 * Math.PI * hertz * seconds);
  }

  private static float[][] render(SampleStream recording, Focus focus, double seconds) {
    int frames = (int) Math.round(seconds * RATE);
    float[][] out = new float[2][frames];
    int[] at = {0};
    FocusRenderer.render(
        recording,
        focus,
        (interleaved, count) -> {
          for (int i = 0; i < count; i++, at[0]++) {
            out[0][at[0]] = interleaved[2 * i];
            out[1][at[0]] = interleaved[2 * i + 1];
          }
        });
    assertThat(at[0]).as("as long as the recording").isEqualTo(frames);
    return out;
  }

  /** Amplitude of one frequency in the middle second of three (a Fourier sum). */
  private static double amplitude(float[] samples, double hertz) {
    double re = 0;
    double im = 0;
    for (int n = RATE; n < 2 * RATE; n++) {
      re += samples[n] * Math.cos(2 * Math.PI * hertz * n / RATE);
      im += samples[n] * Math.sin(2 * Math.PI * hertz * n / RATE);
    }
    return 2 * Math.hypot(re, im) / RATE;
  }

  @ParameterizedTest
  @EnumSource(Focus.class)
  void anyLengthComesBackAtTheSameLengthAndSilenceStaysSilence(Focus focus) {
    for (double seconds : new double[] {0.01, 0.5, 1.2345}) {
      float[][] out = render(stream(seconds, (t, c) -> 0), focus, seconds);
      for (float sample : out[0]) {
        assertThat(sample).isEqualTo(0f, within(1e-6f));
      }
    }
  }

  /** Doubling a frequency is an octave, whatever the tuning. */
  @Test
  void theLowBandComesAnOctaveUpAndTheRestIsGone() {
    float[][] out =
        render(
            stream(3, (t, c) -> 0.3 * tone(61.7, t) + 0.2 * tone(110, t) + 0.3 * tone(880, t)),
            Focus.LOW_OCTAVE_UP,
            3);

    assertThat(amplitude(out[0], 123.4)).isCloseTo(0.3, within(0.03));
    assertThat(amplitude(out[0], 220)).isCloseTo(0.2, within(0.03));
    for (double hertz : new double[] {61.7, 110, 880, 1760}) {
      assertThat(amplitude(out[0], hertz)).as("%s Hz", hertz).isLessThan(0.01);
    }
  }

  @Test
  void aLowNoteStaysWhereItIsInTime() {
    float[][] out =
        render(
            stream(3, (t, c) -> t >= 1.3 && t < 1.8 ? 0.4 * tone(80, t) : 0),
            Focus.LOW_OCTAVE_UP,
            3);
    double moment = 0;
    double sum = 0;
    for (int n = 0; n < out[0].length; n++) {
      moment += (double) n / RATE * out[0][n] * out[0][n];
      sum += out[0][n] * (double) out[0][n];
    }

    assertThat(moment / sum).isCloseTo(1.55, within(0.02));
  }

  @Test
  void middleAndSidesTogetherAreTheRecording() {
    Wave wave = (t, c) -> 0.2 * tone(500, t) + (c == 0 ? 0.2 * tone(1300, t) : 0.2 * tone(2900, t));
    float[][] middle = render(stream(3, wave), Focus.MIDDLE, 3);
    float[][] sides = render(stream(3, wave), Focus.SIDES, 3);

    assertThat(amplitude(middle[0], 500)).isCloseTo(0.2, within(0.01));
    assertThat(amplitude(middle[0], 1300)).isLessThan(0.01);
    assertThat(amplitude(sides[0], 1300)).isCloseTo(0.2, within(0.01));
    assertThat(amplitude(sides[0], 500)).isLessThan(0.01);
    assertThat(amplitude(sides[0], 2900)).isLessThan(0.01);
    assertThat(amplitude(sides[1], 2900)).isCloseTo(0.2, within(0.01));
    for (int n = 0; n < 3 * RATE; n += 97) {
      double t = n / (double) RATE;
      assertThat((double) middle[0][n] + sides[0][n]).isCloseTo(wave.at(t, 0), within(1e-4));
    }
  }

  @Test
  void oneChannelSoundsInBothEars() {
    Wave wave = (t, c) -> 0.3 * tone(c == 0 ? 400 : 700, t);
    float[][] left = render(stream(3, wave), Focus.LEFT, 3);
    float[][] right = render(stream(3, wave), Focus.RIGHT, 3);

    for (float[] ear : left) {
      assertThat(amplitude(ear, 400)).isCloseTo(0.3, within(1e-3));
      assertThat(amplitude(ear, 700)).isLessThan(1e-3);
    }
    assertThat(amplitude(right[0], 700)).isCloseTo(0.3, within(1e-3));
  }

  @Test
  void heldSoundsAndStrokesArePulledApart() {
    Random random = new Random(2);
    Wave tones = (t, c) -> 0.1 * (tone(440, t) + tone(660, t));
    Wave clicks = (t, c) -> t % 0.5 < 0.004 ? 0.8 * (random.nextDouble() - 0.5) : 0;
    SampleStream both = stream(3, (t, c) -> tones.at(t, c) + clicks.at(t, c));
    float[][] held = render(both, Focus.HELD, 3);
    float[][] struck = render(both, Focus.STRUCK, 3);

    assertThat(amplitude(held[0], 440)).isCloseTo(0.1, within(0.01));
    assertThat(amplitude(struck[0], 440)).isLessThan(0.01);
    int click = (int) (1.5 * RATE);
    assertThat(squares(struck[0], click, 180)).isGreaterThan(5 * squares(held[0], click, 180));
  }

  /** What is held hardly moves from sample to sample; what clicks does. */
  private static double squares(float[] samples, int from, int count) {
    double sum = 0;
    for (int n = from; n < from + count; n++) {
      double step = samples[n] - samples[n - 1];
      sum += step * step;
    }
    return sum;
  }

  /** Never louder than the recording, however quiet what is left of it. */
  @ParameterizedTest
  @EnumSource(Focus.class)
  void levelsAreMatchedAndNeverExceedTheRecordings(Focus focus) throws Exception {
    Random random = new Random(4);
    SampleStream recording =
        stream(
            3,
            (t, c) ->
                0.3 * tone(90, t)
                    + 0.1 * tone(600, t)
                    + (c == 0 ? 0.1 : 0.02) * tone(1500, t)
                    + (t % 0.5 < 0.01 ? 0.3 * random.nextGaussian() : 0));
    Path file = folder.resolve("focus.wav");
    LevelMatch.write(
        recording, (samples, sink) -> FocusRenderer.render(samples, focus, sink), file);
    double[] wanted = measure(sink -> recording.to(sink));
    double[] found = measure(read(file));

    assertThat(found[0]).isLessThan(wanted[0] + 1e-3);
    assertThat(found[1]).isLessThanOrEqualTo(wanted[1] + 0.05);
    assertThat(found[1]).isGreaterThan(wanted[1] - 25);
    assertThat(names(folder)).containsExactly(file.getFileName().toString());
  }

  /** Peak and loudness. */
  private static double[] measure(SampleStream sound) {
    var meter = new undersong.feature.LoudnessMeter(RATE, new double[] {1, 1});
    double[] peak = {0};
    sound.to(
        (interleaved, frames) -> {
          meter.accept(interleaved, frames);
          for (int i = 0; i < 2 * frames; i++) {
            peak[0] = Math.max(peak[0], Math.abs(interleaved[i]));
          }
        });
    return new double[] {peak[0], meter.read().integratedLufs()};
  }

  /** Read back by the platform's own reader, which also checks the header. */
  private static SampleStream read(Path file) throws Exception {
    try (AudioInputStream in = AudioSystem.getAudioInputStream(file.toFile())) {
      assertThat(in.getFormat().getSampleRate()).isEqualTo(44_100f);
      assertThat(in.getFormat().getChannels()).isEqualTo(2);
      assertThat(in.getFrameLength()).isEqualTo(3L * RATE);
      byte[] bytes = in.readAllBytes();
      float[] samples = new float[bytes.length / 2];
      for (int i = 0; i < samples.length; i++) {
        samples[i] = (short) ((bytes[2 * i] & 0xff) | bytes[2 * i + 1] << 8) / 32768f;
      }
      return sink -> sink.accept(samples, samples.length / 2);
    }
  }

  @Test
  void keptFilesAreNotMadeAgainAndTheOldestGoFirst() throws IOException {
    java.time.Instant[] now = {java.time.Instant.parse("2026-01-01T00:00:00Z")};
    RenderingFiles files = new RenderingFiles(folder, 250, () -> now[0]);
    int[] made = {0};
    for (String name : new String[] {"a", "b", "a", "c", "a"}) {
      now[0] = now[0].plusSeconds(10);
      files.file(
          name,
          file -> {
            made[0]++;
            Files.write(file, new byte[100]);
          });
    }

    assertThat(made[0]).isEqualTo(3);
    assertThat(names(folder)).containsExactlyInAnyOrder("a.wav", "c.wav");
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> file.getFileName().toString()).toList();
    }
  }
}
