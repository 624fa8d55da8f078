package undersong.render;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import java.io.IOException;
import java.nio.file.Path;
import java.util.EnumSet;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.UnsupportedAudioFileException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.reading.Facet;
import undersong.render.synth.Effects;
import undersong.time.Span;

class DemoRendererTest {
  private static final int RATE = StereoAudio.SAMPLE_RATE_HZ;

  @Test
  void theSameSongGivesTheSameSamples() {
    DemoSong song = DemoSongs.named("tar-and-honey");
    StereoAudio once = DemoRenderer.render(song, 0);
    StereoAudio again = DemoRenderer.render(DemoSongs.named("tar-and-honey"), 0);
    assertThat(once.hashCode()).isEqualTo(again.hashCode());
    assertThat(once).isEqualTo(again);
  }

  @ParameterizedTest
  @ValueSource(strings = {"low-water", "count-the-ferries", "tar-and-honey"})
  void theLoudestSectionsDoNotClip(String id) {
    DemoSong song = DemoSongs.named(id);
    int section = id.equals("tar-and-honey") ? 5 : 3;
    StereoAudio audio = DemoRenderer.render(song, section);
    assertThat(audio.peak()).isBetween(0.4, Effects.gain(-1));
    assertThat(decibels(rms(audio.left(), 0, audio.size()))).isBetween(-24.0, -12.0);
  }

  /** ISO 16: A4 is 440 Hz. */
  @ParameterizedTest
  @ValueSource(strings = {"plain", "string", "keys", "bass", "drive"})
  void tunesA4To440Hertz(String sound) {
    StereoAudio audio = play("sound " + sound + " role line", "x plays | a4 - - - |", "");
    double cents = 1200 * Math.log(hertzNear(440, audio.left(), RATE / 2) / 440) / Math.log(2);
    assertThat(cents).isCloseTo(0, offset(1.0));
  }

  @Test
  void shiftsTheWholeSongByItsTuning() {
    StereoAudio audio = play("sound plain role line", "x plays | a4 - - - |", "tuning 18\n");
    double cents = 1200 * Math.log(hertzNear(440, audio.left(), RATE / 2) / 440) / Math.log(2);
    assertThat(cents).isCloseTo(18, offset(1.0));
  }

  @Test
  void pansWithConstantPower() {
    for (double place = -1; place <= 1; place += 0.125) {
      double[] gains = Effects.pan(place);
      assertThat(gains[0] * gains[0] + gains[1] * gains[1]).isCloseTo(1, offset(1e-12));
    }
    assertThat(Effects.pan(-1)[1]).isCloseTo(0, offset(1e-12));
    assertThat(Effects.pan(0)[0]).isCloseTo(Math.sqrt(0.5), offset(1e-12));
  }

  @Test
  void strikesOnTheGridToTheSample() {
    StereoAudio audio = play("sound kick role drums", "x follows x..x....", "");
    for (double beat : new double[] {0, 1.5}) {
      int expected = (int) Math.round((0.25 + beat * 0.5) * RATE);
      assertThat(rms(audio.left(), expected - 2000, expected - 1)).isLessThan(0.01);
      assertThat(rms(audio.left(), expected + 1, expected + 400)).isGreaterThan(0.05);
      assertThat(firstAbove(audio.left(), 0.002, expected - 2000))
          .isBetween(expected, expected + 8);
    }
  }

  @Test
  void putsEchoesAtTheirLag() {
    StereoAudio audio = play("sound snap role drums echo 0.75", "x follows x.......", "");
    float[] x = audio.left();
    int start = (int) (0.25 * RATE);
    int lag = (int) Math.round(0.75 * 0.5 * RATE);
    double best = 0;
    int bestLag = 0;
    for (int k = RATE / 5; k < RATE / 2; k++) {
      double sum = 0;
      for (int i = start; i < start + 4000; i++) {
        sum += x[i] * x[i + k];
      }
      if (sum > best) {
        best = sum;
        bestLag = k;
      }
    }
    assertThat(bestLag).isBetween(lag - 2, lag + 2);
    double fall = decibels(rms(x, start, start + 4000) / rms(x, start + lag, start + lag + 4000));
    assertThat(fall).isBetween(7.0, 12.0);
  }

  @Test
  void fadesByMoreThanTwentyDecibelsWhileThePulseGoesOn() {
    StereoAudio audio = play("sound kick role drums", "x follows x.x.x.x.", "fade 1\n");
    double first = rms(audio.left(), RATE / 4, RATE / 4 + 8000);
    double last = rms(audio.left(), (int) (1.75 * RATE), (int) (1.75 * RATE) + 8000);
    assertThat(decibels(first / last)).isGreaterThan(20);
    assertThat(last).isGreaterThan(1e-4);
  }

  @Test
  void doublesWithTwoTakesThatDiffer() {
    StereoAudio audio = play("sound string role line double 1", "x plays | a3 c4 e4 a4 |", "");
    double both = 0;
    for (int i = 0; i < audio.size(); i++) {
      both += audio.left(i) * audio.right(i);
    }
    int n = audio.size();
    double coherence = both / n / (rms(audio.left(), 0, n) * rms(audio.right(), 0, n));
    assertThat(Math.abs(coherence)).isLessThan(0.9);
  }

  @Test
  void dipsAtEveryHitWhereItDucks() {
    float[] tone = new float[RATE];
    java.util.Arrays.fill(tone, 0.5f);
    Effects.duck(tone, new int[] {RATE / 2}, 6);
    assertThat(decibels(tone[RATE / 2] / 0.5)).isCloseTo(-6, offset(0.2));
    assertThat(tone[RATE / 2 - 2000]).isEqualTo(0.5f);
    assertThat(decibels(tone[RATE - 1] / 0.5)).isCloseTo(0, offset(0.2));
  }

  @Test
  void holdsTheCeilingForEverySample() {
    float[] left = new float[5000];
    float[] right = new float[5000];
    for (int i = 0; i < left.length; i++) {
      left[i] = (float) (2 * Math.sin(i * 0.07) * Math.sin(i * 0.001));
      right[i] = i % 997 == 0 ? 3 : 0;
    }
    Effects.limit(left, right, 0.5, 100);
    for (int i = 0; i < left.length - 200; i++) {
      assertThat(Math.max(Math.abs(left[i]), Math.abs(right[i]))).isLessThanOrEqualTo(0.5001f);
    }
  }

  @Test
  void writesAFileThatTheJdkReads(@TempDir Path folder)
      throws IOException, UnsupportedAudioFileException {
    StereoAudio audio = play("sound keys role line", "x plays | a4 - - - |", "");
    Path file = folder.resolve("a.wav");
    WavFile.write(audio, file);
    try (AudioInputStream in = AudioSystem.getAudioInputStream(file.toFile())) {
      assertThat(in.getFrameLength()).isEqualTo(audio.size());
      assertThat(in.getFormat().getSampleRate()).isEqualTo(RATE);
      assertThat(in.getFormat().getChannels()).isEqualTo(2);
      byte[] bytes = in.readAllBytes();
      int at = RATE / 2;
      short sample = (short) ((bytes[4 * at] & 0xff) | bytes[4 * at + 1] << 8);
      assertThat(sample / 32767.0).isCloseTo(audio.left(at), offset(1e-4));
    }
  }

  @Test
  void playsAReadingBackByPlainTonesInTime() {
    DemoSong song = DemoSongs.named("low-water");
    Span span = new Span(0, 4);
    StereoAudio bass =
        PlainTones.render(song.truth().reading(), EnumSet.of(PlainTones.Layer.BASS), span);
    assertThat(bass.size()).isEqualTo(4 * RATE);
    int start = (int) Math.round(song.score().offsetSeconds() * RATE);
    assertThat(firstAbove(bass.left(), 1e-4, 0)).isBetween(start, start + 100);
    // The first bass note is E2: 82.41 Hz in equal temperament at A4 = 440 Hz (ISO 16).
    double hertz = hertzNear(82.41, bass.left(), start + 2000);
    assertThat(1200 * Math.log(hertz / 82.4069) / Math.log(2)).isCloseTo(0, offset(2.0));
    StereoAudio melody =
        PlainTones.render(song.truth().reading(), EnumSet.of(PlainTones.Layer.MELODY), span);
    assertThat(melody.peak()).as("nobody sings in the introduction").isZero();
    assertThat(song.truth().reading().find(Facet.CHORDS)).isPresent();
  }

  /** One bar of 4/4 at 120 bpm, a quarter of a second after the start. */
  private static StereoAudio play(String part, String line, String facts) {
    String score =
        facts
            + "tempo 120\noffset 0.25\ntail 1\nkey C major\npart x "
            + part
            + "\nsection a role verse letter A bars 1\nchords | C |\n"
            + line
            + "\n";
    return DemoRenderer.render(DemoSong.of("test", score));
  }

  private static int firstAbove(float[] x, double threshold, int from) {
    for (int i = Math.max(0, from); i < x.length; i++) {
      if (Math.abs(x[i]) > threshold) {
        return i;
      }
    }
    return -1;
  }

  private static double rms(float[] x, int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += (double) x[i] * x[i];
    }
    return Math.sqrt(sum / (to - from));
  }

  private static double decibels(double ratio) {
    return 20 * Math.log10(ratio);
  }

  /** Frequency from how far the phase of one spectral line turns between two windows. */
  private static double hertzNear(double guess, float[] x, int from) {
    int length = 16_384;
    int hop = 1000;
    double turn = phase(guess, x, from + hop, length) - phase(guess, x, from, length);
    double expected = 2 * Math.PI * guess * hop / RATE;
    double off = Math.IEEEremainder(turn - expected, 2 * Math.PI);
    return guess + off * RATE / (2 * Math.PI * hop);
  }

  private static double phase(double hertz, float[] x, int from, int length) {
    double re = 0;
    double im = 0;
    for (int i = 0; i < length; i++) {
      double window = 0.5 - 0.5 * Math.cos(2 * Math.PI * i / length);
      double angle = 2 * Math.PI * hertz * i / RATE;
      re += window * x[from + i] * Math.cos(angle);
      im -= window * x[from + i] * Math.sin(angle);
    }
    return Math.atan2(im, re);
  }
}
