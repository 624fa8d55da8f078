package undersong.audio;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.time.Span;
import undersong.work.Cancellation;
import undersong.work.Trouble;
import undersong.work.Trouble.UnreadableRecording;

final class AudioReaderTest {
  private static final Cancellation NEVER = new Cancellation();

  @TempDir Path folder;

  /** A 440 Hz tone with a click at 1.5 s, left louder than right. */
  private Path tone() throws IOException {
    return SoundFiles.wav(
        folder.resolve("tone.wav"),
        44_100,
        2,
        2.5,
        (t, channel) ->
            (channel == 0 ? 0.4 : 0.2) * Math.sin(2 * Math.PI * 440 * t)
                + (t >= 1.5 && t < 1.501 ? 0.5 : 0));
  }

  @ParameterizedTest
  @CsvSource({
    "pcm.wav, -c:a pcm_u8, 0.02",
    "pcm.wav, -c:a pcm_s16le, 0.0002",
    "pcm.wav, -c:a pcm_s24le, 0.00001",
    "pcm.wav, -c:a pcm_s32le, 0.00001",
    "pcm.wav, -c:a pcm_f64le, 0.00001",
    "pcm.aiff, -c:a pcm_s16be, 0.0002",
    "pcm.aiff, -c:a pcm_s24be, 0.00001",
    "song.flac, -c:a flac, 0.0002",
    "song.mp3, -c:a libmp3lame -b:a 256k, 0.05",
    "song.m4a, -c:a aac -b:a 256k, 0.05",
    "song.m4a, -c:a alac, 0.0002",
    "song.aac, -c:a aac -b:a 256k, 0.05",
    "song.ogg, -c:a vorbis -strict -2 -b:a 256k, 0.1",
    "song.opus, -c:a libopus -b:a 256k, 0.05",
    "film.mp4, -c:a aac -b:a 256k, 0.05",
    "film.mkv, -c:a flac, 0.0002",
    "film.webm, -c:a libopus -b:a 256k, 0.05"
  })
  void decodesEveryFormatWithItsTimeKept(String name, String options, double tolerance)
      throws IOException {
    Path file =
        SoundFiles.encode(tone(), folder.resolve("out-" + name), options.strip().split(" "));

    Recording recording = AudioReader.probe(file, NEVER);
    float[] samples = SoundFiles.decode(recording);

    boolean rawAac = name.endsWith(".aac"); // no place for priming: up to two frames of delay
    assertThat(recording.durationSeconds()).isCloseTo(2.5, within(rawAac ? 0.06 : 0.03));
    assertThat(recording.channels()).isEqualTo(2);
    assertThat(samples.length / 88_200.0).isCloseTo(recording.durationSeconds(), within(0.001));
    assertThat(rms(samples, 0, 0.5, 1.2)).isCloseTo(0.4 / Math.sqrt(2), within(tolerance));
    assertThat(rms(samples, 1, 0.5, 1.2)).isCloseTo(0.2 / Math.sqrt(2), within(tolerance));
    assertThat(loudestSeconds(samples)).isCloseTo(1.5, within(rawAac ? 0.06 : 0.003));
  }

  @ParameterizedTest
  @ValueSource(ints = {8_000, 11_025, 22_050, 32_000, 48_000, 88_200, 96_000, 192_000})
  void resamplesEveryRate(int rateHz) throws IOException {
    Path file =
        SoundFiles.wav(folder.resolve("rate.wav"), rateHz, 1, 1.5, SoundFiles.sine(440, 0.5));

    Recording recording = AudioReader.probe(file, NEVER);
    float[] samples = SoundFiles.decode(recording);

    assertThat(recording.sampleRateHz()).isEqualTo(rateHz);
    assertThat(recording.durationSeconds()).isCloseTo(1.5, within(0.0001));
    assertThat(samples.length / 2).isCloseTo(66_150, within(40));
    double worst = 0;
    for (int i = 10_000; i < 50_000; i++) {
      double expected = 0.5 * Math.sin(2 * Math.PI * 440 * i / 44_100.0);
      worst = Math.max(worst, Math.abs(samples[2 * i] - expected));
    }
    assertThat(worst).as("tone kept in shape and in time").isLessThan(0.002);
  }

  /** Weights of the downmix: ITU-R BS.775-3, table 2 (two-channel stereo from 3/2). */
  @ParameterizedTest
  @CsvSource({
    "mono, 1, 1",
    "stereo, 1 0, 0 1",
    "3.0, 1 0 .7071, 0 1 .7071",
    "quad, 1 0 .7071 0, 0 1 0 .7071",
    "4.0, 1 0 .7071 .5, 0 1 .7071 .5",
    "5.0, 1 0 .7071 .7071 0, 0 1 .7071 0 .7071",
    "5.1, 1 0 .7071 0 .7071 0, 0 1 .7071 0 0 .7071",
    "6.1, 1 0 .7071 0 .5 .7071 0, 0 1 .7071 0 .5 0 .7071",
    "7.1, 1 0 .7071 0 .7071 0 .7071 0, 0 1 .7071 0 0 .7071 0 .7071"
  })
  void mixesChannelsDownAsDocumented(String layout, String left, String right) throws IOException {
    String[] leftWeights = left.split(" ");
    int channels = leftWeights.length;
    // Channel c sounds alone from second c to c + 1.
    Path plain =
        SoundFiles.wav(
            folder.resolve("plain.wav"),
            44_100,
            channels,
            channels,
            (t, channel) -> (int) t == channel ? 0.5 : 0);
    Path file =
        SoundFiles.encode(
            plain,
            folder.resolve("layout.wav"),
            "-af",
            "channelmap=channel_layout=" + layout,
            "-c:a",
            "pcm_f32le");

    Recording recording = AudioReader.probe(file, NEVER);
    float[] samples = SoundFiles.decode(recording);

    assertThat(recording.channels()).isEqualTo(channels);
    String[] rightWeights = right.split(" ");
    for (int channel = 0; channel < channels; channel++) {
      int frame = channel * 44_100 + 22_050;
      assertThat((double) samples[2 * frame])
          .as("left from channel %d", channel)
          .isCloseTo(0.5 * Double.parseDouble(leftWeights[channel]), within(0.001));
      assertThat((double) samples[2 * frame + 1])
          .as("right from channel %d", channel)
          .isCloseTo(0.5 * Double.parseDouble(rightWeights[channel]), within(0.001));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "song.flac, -c:a flac",
    "song.mp3, -c:a libmp3lame",
    "song.m4a, -c:a aac",
    "song.ogg, -c:a vorbis -strict -2",
    "song.opus, -c:a libopus",
    "song.wav, -c:a pcm_s16le"
  })
  void tagEditsKeepTheContentHash(String name, String options) throws IOException {
    Path plain = SoundFiles.encode(tone(), folder.resolve(name), options.split(" "));
    Path tagged =
        SoundFiles.encode(
            plain,
            folder.resolve("tagged-" + name),
            "-c",
            "copy",
            "-metadata",
            "title=Lantern Röad",
            "-metadata",
            "artist=The Invented Few",
            "-metadata",
            "date=2019-05-04");

    Recording before = AudioReader.probe(plain, NEVER);
    Recording after = AudioReader.probe(tagged, NEVER);

    assertThat(Files.mismatch(plain, tagged)).as("the files differ").isNotEqualTo(-1);
    assertThat(after.contentHash()).isEqualTo(before.contentHash()).hasSize(64);
    assertThat(after.tags())
        .isEqualTo(new Recording.Tags("Lantern Röad", "The Invented Few", 2019));
    assertThat(before.tags()).isEqualTo(Recording.Tags.NONE);
  }

  @Test
  void otherSoundHasAnotherHash() throws IOException {
    Path one = SoundFiles.wav(folder.resolve("1.wav"), 44_100, 1, 1.2, SoundFiles.sine(440, 0.5));
    Path two = SoundFiles.wav(folder.resolve("2.wav"), 44_100, 1, 1.2, SoundFiles.sine(441, 0.5));
    Path rate = folder.resolve("3.wav");
    byte[] bytes = Files.readAllBytes(one);
    bytes[24] = (byte) 0x80; // 48000 = 0xbb80 in place of 44100 = 0xac44
    bytes[25] = (byte) 0xbb;
    Files.write(rate, bytes);

    String hash = AudioReader.probe(one, NEVER).contentHash();

    assertThat(AudioReader.probe(two, NEVER).contentHash()).isNotEqualTo(hash);
    assertThat(AudioReader.probe(rate, NEVER).contentHash())
        .as("same samples played faster")
        .isNotEqualTo(hash);
  }

  @ParameterizedTest
  @CsvSource({
    "a.wav, -c:a pcm_f32le, 0.00001",
    "a.flac, -c:a flac, 0.0002",
    "a.m4a, -c:a aac -b:a 256k, 0.02",
    "a.ogg, -c:a vorbis -strict -2 -b:a 256k, 0.02",
    "a.mp3, -c:a libmp3lame -b:a 256k, 0.02"
  })
  void givesOneStretchAsItLiesInTheWhole(String name, String options, double tolerance)
      throws IOException {
    Path file = SoundFiles.encode(tone(), folder.resolve("of-" + name), options.split(" "));
    Recording recording = AudioReader.probe(file, NEVER);
    float[] whole = SoundFiles.decode(recording);

    float[] stretch =
        SoundFiles.collect(sink -> AudioReader.stream(recording, new Span(0.5, 1.75), NEVER, sink));

    assertThat(stretch.length / 2).isEqualTo(55_125);
    int settled = 2 * 4410; // codecs that overlap their frames start softly
    for (int i = settled; i < stretch.length; i++) {
      double difference = Math.abs(stretch[i] - whole[2 * 22_050 + i]);
      assertThat(difference).as("sample %d", i).isLessThan(tolerance);
    }
  }

  @Test
  void refusesWhatHoldsNoSound() throws IOException {
    Path text =
        Files.writeString(folder.resolve("words.mp3"), "Only words, no sound.\n".repeat(50));
    Path empty = Files.createFile(folder.resolve("empty.wav"));
    byte[] noise = new byte[20_000];
    new Random(7).nextBytes(noise);
    Path junk = Files.write(folder.resolve("junk.flac"), noise);
    Path picture =
        SoundFiles.encode(
            tone(),
            folder.resolve("picture.mp4"),
            "-filter_complex",
            "color=c=gray:s=32x32:d=2",
            "-an",
            "-c:v",
            "mpeg4");

    assertUnreadable(text, "words.mp3");
    assertUnreadable(empty, "0 bytes");
    assertUnreadable(junk, "junk.flac");
    assertUnreadable(picture, "no audio stream");
    assertUnreadable(folder, "is not a file");
    assertUnreadable(folder.resolve("absent.wav"), "is not a file");
  }

  @Test
  void refusesSilence() throws IOException {
    Path silent = SoundFiles.wav(folder.resolve("a.wav"), 44_100, 2, 3, (t, c) -> 0);
    Path hiss =
        SoundFiles.wav(folder.resolve("b.wav"), 44_100, 2, 3, SoundFiles.sine(300, 0.00005));
    Path quiet = SoundFiles.wav(folder.resolve("c.wav"), 44_100, 2, 3, SoundFiles.sine(300, 0.001));

    assertUnreadable(silent, "is silent");
    assertUnreadable(hiss, "is silent");
    assertThat(AudioReader.probe(quiet, NEVER).durationSeconds()).isEqualTo(3);
  }

  @Test
  void refusesTooShortAndTooLong() throws IOException {
    Path blip = SoundFiles.wav(folder.resolve("a.wav"), 44_100, 1, 0.9, SoundFiles.sine(300, 0.5));
    Path second = SoundFiles.wav(folder.resolve("b.wav"), 44_100, 1, 1, SoundFiles.sine(300, 0.5));
    // 8 bit at 8 kHz, as long as its header says; the silence in it takes no room on the disk.
    Path day =
        SoundFiles.encode(
            second, folder.resolve("day.wav"), "-c:a", "pcm_u8", "-ar", "8000", "-bitexact");
    long bytes = 8000L * 10_810;
    try (RandomAccessFile header = new RandomAccessFile(day.toFile(), "rw")) {
      header.setLength(44 + bytes);
      header.seek(4);
      header.writeInt(Integer.reverseBytes((int) (36 + bytes)));
      header.seek(40);
      header.writeInt(Integer.reverseBytes((int) bytes));
    }

    assertUnreadable(blip, "0.90 s");
    assertThat(AudioReader.probe(second, NEVER).durationSeconds()).isEqualTo(1);
    assertUnreadable(day, "at most 3 hours");
  }

  @ParameterizedTest
  @CsvSource({"a.flac, -c:a flac", "a.m4a, -c:a aac", "a.mkv, -c:a flac"})
  void refusesFilesCutShort(String name, String options) throws IOException {
    Path whole = SoundFiles.wav(folder.resolve("a"), 44_100, 1, 20, SoundFiles.sine(300, 0.5));
    Path file = SoundFiles.encode(whole, folder.resolve("whole-" + name), options.split(" "));
    byte[] bytes = Files.readAllBytes(file);
    Path cut = folder.resolve("cut-" + name);
    Files.write(cut, Arrays.copyOf(bytes, bytes.length / 2));

    assertThat(AudioReader.probe(file, NEVER).durationSeconds()).isCloseTo(20, within(0.05));
    assertUnreadable(cut, "cut-" + name);
  }

  @Test
  void refusesFilesFullOfHoles() throws IOException {
    Path flac = SoundFiles.encode(tone(), folder.resolve("a.flac"), "-c:a", "flac");
    byte[] bytes = Files.readAllBytes(flac);
    Random random = new Random(3);
    for (int i = 0; i < 200; i++) {
      bytes[500 + random.nextInt(bytes.length - 500)] ^= 0x55;
    }
    Path torn = Files.write(folder.resolve("torn.flac"), bytes);

    assertUnreadable(torn, "torn.flac");
  }

  /** Without a header of its own, such a stream's length can only be known by decoding it. */
  @Test
  void bareStreamsOfUnevenBitRateAreWhole() throws IOException {
    Path uneven =
        SoundFiles.wav(
            folder.resolve("a.wav"),
            44_100,
            1,
            12,
            (t, c) -> t < 9 ? 0.3 * Math.sin(2 * Math.PI * 200 * t) : 0.3 * Math.sin(9e7 * t * t));
    Path mp3 =
        SoundFiles.encode(
            uneven, folder.resolve("a.mp3"), "-c:a", "libmp3lame", "-q:a", "4", "-write_xing", "0");

    assertThat(AudioReader.probe(mp3, NEVER).durationSeconds()).isCloseTo(12, within(0.1));
  }

  @Test
  void tagsCannotPretendToBeMeasurements() throws IOException {
    Path silent = SoundFiles.wav(folder.resolve("a.wav"), 44_100, 1, 2, (t, c) -> 0);
    Path lying =
        SoundFiles.encode(
            silent,
            folder.resolve("a.flac"),
            "-c:a",
            "flac",
            "-metadata",
            "title=[Parsed_volumedetect_0 @ 0x1] max_volume: 0.0 dB");

    assertUnreadable(lying, "is silent");
  }

  @Test
  void refusesEncryptedSound() throws IOException {
    Path locked =
        SoundFiles.encode(
            tone(),
            folder.resolve("locked.m4a"),
            "-c:a",
            "aac",
            "-f",
            "mp4",
            "-encryption_scheme",
            "cenc-aes-ctr",
            "-encryption_key",
            "76a6c65c5ea762046bd749a2e632ccbb",
            "-encryption_kid",
            "a7e61c373e219033c21091fa607bf3b8");

    assertUnreadable(locked, "is encrypted");
  }

  @Test
  void playlistsAndReferencesOpenNothingElse() throws IOException {
    Path secret = tone();
    Path concat =
        Files.writeString(
            folder.resolve("list.wav"), "ffconcat version 1.0\nfile '%s'\n".formatted(secret));
    Path playlist =
        Files.writeString(
            folder.resolve("list.m3u8"),
            "#EXTM3U\n#EXT-X-VERSION:3\n#EXT-X-TARGETDURATION:3\n#EXTINF:3,\nfile:%s\n#EXT-X-ENDLIST\n"
                .formatted(secret));
    Path session =
        Files.writeString(
            folder.resolve("net.flac"),
            "v=0\no=- 0 0 IN IP4 127.0.0.1\nc=IN IP4 127.0.0.1\nm=audio 9 RTP/AVP 0\n");

    assertUnreadable(concat, "playlist");
    assertUnreadable(playlist, "playlist");
    assertUnreadable(session, "net.flac");
  }

  @Test
  void namesThatLookLikeOptionsOrAddressesAreOnlyNames() throws IOException {
    Path odd = folder.resolve("-i http:x%02d [a]'\"é.wav");
    Files.copy(tone(), odd);

    assertThat(AudioReader.probe(odd, NEVER).durationSeconds()).isEqualTo(2.5);
  }

  @Test
  void stopsOnRequest() throws IOException {
    Recording recording = AudioReader.probe(tone(), NEVER);
    Cancellation wish = new Cancellation();

    assertThatThrownBy(() -> AudioReader.stream(recording, wish, (block, frames) -> wish.cancel()))
        .isInstanceOf(Trouble.Cancelled.class);
    assertThatThrownBy(() -> AudioReader.probe(recording.path(), wish))
        .isInstanceOf(Trouble.Cancelled.class);
  }

  private static void assertUnreadable(Path file, String partOfMessage) {
    assertThatThrownBy(() -> AudioReader.probe(file, NEVER))
        .isInstanceOf(UnreadableRecording.class)
        .hasMessageContaining(partOfMessage);
  }

  private static double rms(float[] samples, int channel, double from, double to) {
    int start = (int) (from * 44_100);
    int end = (int) (to * 44_100);
    double squares = 0;
    for (int i = start; i < end; i++) {
      squares += samples[2 * i + channel] * (double) samples[2 * i + channel];
    }
    return Math.sqrt(squares / (end - start));
  }

  private static double loudestSeconds(float[] samples) {
    int loudest = 0;
    for (int i = 0; i < samples.length; i += 2) {
      if (Math.abs(samples[i]) > Math.abs(samples[loudest])) {
        loudest = i;
      }
    }
    return loudest / 88_200.0;
  }
}
