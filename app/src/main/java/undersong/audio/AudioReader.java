package undersong.audio;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.time.Span;
import undersong.work.Cancellation;
import undersong.work.Trouble.UnreadableRecording;

/**
 * Opens media files and decodes their sound.
 *
 * <p><b>In:</b> WAV, AIFF, FLAC, MP3, M4A/AAC, Ogg (Vorbis, Opus) or the first audio stream of
 * MP4/MKV/WebM; 8 to 192 kHz, 8 to 32 bit or float, mono to 7.1, 1 second to 3 hours. Only these
 * containers and only the named file are ever opened: playlists and references to other files or to
 * the network are refused.
 *
 * <p><b>Out:</b> stereo at {@link #SAMPLE_RATE_HZ}, time 0 being the first sample after codec
 * priming. Mono goes to both channels unchanged. More channels are mixed down as ITU-R BS.775 says,
 * without rescaling: left + 0.7071 center + 0.7071 left surround (each surround pair; a lone back
 * center gives 0.5 to both sides), the same on the right; the low-frequency effects channel is left
 * out.
 *
 * <p>A container that says how long it lasts must decode to that length. Where the length follows
 * from the file's size alone (WAV, AIFF, bare MP3 and AAC), a file cut short is taken as it is.
 *
 * <p><b>Silence:</b> a file whose loudest sample stays below {@link #SILENCE_DBFS} is refused.
 *
 * <p><b>Cost:</b> linear in the length, memory constant; probing decodes once.
 */
public final class AudioReader {
  public static final int SAMPLE_RATE_HZ = 44_100;
  public static final double SHORTEST_SECONDS = 1;
  public static final double LONGEST_SECONDS = 3 * 3600;
  public static final double SILENCE_DBFS = -80;

  private static final int BLOCK_FRAMES = SAMPLE_RATE_HZ;
  private static final int FRAME_BYTES = 2 * Float.BYTES;

  private static final String CONTAINERS =
      "wav,aiff,flac,mp3,aac,ogg,mov,mp4,m4a,3gp,3g2,mj2,matroska,webm";

  private static final Pattern SAMPLES = line("n_samples: (\\d+)");
  private static final Pattern LOUDEST = line("max_volume: (-?[\\d.]+|-inf) dB");
  private static final Pattern HASH = Pattern.compile("SHA256=([0-9a-f]{64})");

  private AudioReader() {}

  /** A line of the level meter itself; tags of the file are printed too, but indented. */
  private static Pattern line(String reading) {
    return Pattern.compile("(?m)^\\[Parsed_volumedetect_\\d+ @ [^\\]]+\\] " + reading);
  }

  /**
   * States the facts about a file and proves that it can be decoded from end to end.
   *
   * @throws UnreadableRecording if it is missing, empty, broken, cut short, encrypted, silent, too
   *     short or too long, or holds no sound
   */
  public static Recording probe(Path path, Cancellation cancellation) {
    Path file = requireFile(path);
    MediaFacts facts = facts(file, cancellation);
    if (facts.declaredSeconds().filter(s -> s > LONGEST_SECONDS + 1).isPresent()) {
      throw Refusal.tooLong(file, facts.declaredSeconds().get());
    }
    List<String> arguments = new ArrayList<>(List.of("-hide_banner", "-nostdin", "-nostats"));
    // Progress lines keep the watch quiet while a long file is decoded.
    arguments.addAll(List.of("-progress", "pipe:1"));
    arguments.addAll(input(file, Optional.of(new Span(0, LONGEST_SECONDS + 2))));
    arguments.addAll(List.of("-map", "0:a:0", "-c", "copy"));
    arguments.addAll(List.of("-f", "streamhash", "-hash", "sha256", "pipe:1"));
    arguments.addAll(List.of("-map", "0:a:0", "-af", "volumedetect", "-f", "null", "-"));
    try (MediaProcess decoder = MediaProcess.start(MediaTool.DECODER, arguments)) {
      String answer = decoder.readText(cancellation);
      int status = decoder.awaitEnd(cancellation);
      String errors = decoder.errors();
      Matcher hash = HASH.matcher(answer);
      double seconds = decodedSeconds(errors, facts);
      if (status != 0 || seconds == 0 || !hash.find()) {
        throw Refusal.broken(file, decoder);
      }
      requireLength(file, seconds, facts);
      requireSound(file, errors);
      return new Recording(
          path,
          contentHash(facts, hash.group(1)),
          seconds,
          facts.sampleRateHz(),
          facts.channels(),
          facts.tags());
    }
  }

  /** The whole recording as a stream that can be run again. */
  public static SampleStream samples(Recording recording, Cancellation cancellation) {
    return sink -> stream(recording, cancellation, sink);
  }

  /** Decodes the whole recording, in blocks of a second. */
  public static void stream(Recording recording, Cancellation cancellation, BlockSink sink) {
    stream(recording, Optional.empty(), cancellation, sink);
  }

  /** Decodes one stretch of the recording, in blocks of a second. */
  public static void stream(
      Recording recording, Span span, Cancellation cancellation, BlockSink sink) {
    stream(recording, Optional.of(span), cancellation, sink);
  }

  private static void stream(
      Recording recording, Optional<Span> span, Cancellation cancellation, BlockSink sink) {
    Path file = requireFile(recording.path());
    List<String> arguments = new ArrayList<>(List.of("-v", "error", "-nostdin"));
    arguments.addAll(input(file, span));
    arguments.addAll(List.of("-map", "0:a:0", "-af", toStereo(recording.channels())));
    arguments.addAll(List.of("-f", "f32le", "pipe:1"));
    try (MediaProcess decoder = MediaProcess.start(MediaTool.DECODER, arguments)) {
      byte[] bytes = new byte[BLOCK_FRAMES * FRAME_BYTES];
      float[] block = new float[BLOCK_FRAMES * 2];
      int count;
      do {
        cancellation.check();
        count = decoder.read(bytes);
        ByteBuffer.wrap(bytes, 0, count)
            .order(ByteOrder.LITTLE_ENDIAN)
            .asFloatBuffer()
            .get(block, 0, count / Float.BYTES);
        if (count >= FRAME_BYTES) {
          sink.accept(block, count / FRAME_BYTES);
        }
      } while (count == bytes.length);
      if (decoder.awaitEnd(cancellation) != 0) {
        throw Refusal.broken(file, decoder);
      }
    }
  }

  private static MediaFacts facts(Path file, Cancellation cancellation) {
    List<String> arguments = new ArrayList<>(List.of("-v", "error"));
    arguments.addAll(whitelists());
    // The first packet tells whether it is encrypted.
    arguments.addAll(List.of("-select_streams", "a:0", "-show_packets", "-read_intervals", "%+#1"));
    arguments.addAll(List.of("-show_streams", "-show_format", "-of", "json", "file:" + file));
    try (MediaProcess prober = MediaProcess.start(MediaTool.PROBER, arguments)) {
      String json = prober.readText(cancellation);
      if (prober.awaitEnd(cancellation) != 0) {
        throw Refusal.broken(file, prober);
      }
      MediaFacts facts = MediaFacts.parse(json).orElseThrow(() -> Refusal.noSound(file));
      if (facts.encrypted()) {
        throw Refusal.encrypted(file, facts.codec());
      }
      return facts;
    } catch (JsonProcessingException e) {
      throw new UnreadableRecording("The header of %s makes no sense.".formatted(file), e);
    }
  }

  private static List<String> whitelists() {
    return List.of("-protocol_whitelist", "file", "-format_whitelist", CONTAINERS);
  }

  static List<String> input(Path file, Optional<Span> span) {
    List<String> arguments = new ArrayList<>(whitelists());
    arguments.addAll(List.of("-max_error_rate", "0.05", "-vn", "-sn", "-dn"));
    span.ifPresent(
        s -> {
          if (s.startSeconds() > 0) {
            arguments.addAll(List.of("-ss", seconds(s.startSeconds())));
          }
          arguments.addAll(List.of("-t", seconds(s.lengthSeconds())));
        });
    arguments.addAll(List.of("-i", "file:" + file));
    return arguments;
  }

  /** The downmix rule of this class, as a filter chain. */
  private static String toStereo(int channels) {
    String resample = "aresample=" + SAMPLE_RATE_HZ + ":osf=flt:ochl=stereo:lfe_mix_level=0";
    return channels == 1 ? "pan=stereo|c0=c0|c1=c0," + resample : resample;
  }

  private static Path requireFile(Path path) {
    Path file = path.toAbsolutePath().normalize();
    if (!Files.isRegularFile(file)) {
      throw Refusal.noFile(file);
    }
    try {
      if (Files.size(file) == 0) {
        throw Refusal.empty(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return file;
  }

  private static double decodedSeconds(String errors, MediaFacts facts) {
    long samples = 0;
    Matcher counts = SAMPLES.matcher(errors);
    while (counts.find()) {
      samples += Long.parseLong(counts.group(1));
    }
    return facts.channels() == 0 || facts.sampleRateHz() == 0
        ? 0
        : (double) samples / facts.channels() / facts.sampleRateHz();
  }

  private static void requireLength(Path file, double seconds, MediaFacts facts) {
    if (seconds < SHORTEST_SECONDS) {
      throw Refusal.tooShort(file, seconds);
    }
    if (seconds > LONGEST_SECONDS) {
      throw Refusal.tooLong(file, seconds);
    }
    double declared = facts.declaredSeconds().orElse(seconds);
    if (seconds < declared - 1 && seconds < 0.98 * declared) {
      throw Refusal.cutShort(file, declared, seconds);
    }
  }

  private static void requireSound(Path file, String errors) {
    double loudest = Double.NEGATIVE_INFINITY;
    Matcher levels = LOUDEST.matcher(errors);
    while (levels.find()) {
      String level = levels.group(1);
      loudest = Math.max(loudest, level.equals("-inf") ? loudest : Double.parseDouble(level));
    }
    if (loudest < SILENCE_DBFS) {
      throw Refusal.silent(file, loudest);
    }
  }

  /**
   * Packets alone do not say how fast they play: the same raw samples at another rate are another
   * recording.
   */
  private static String contentHash(MediaFacts facts, String packets) {
    String text =
        "%s %d %d %s".formatted(facts.codec(), facts.sampleRateHz(), facts.channels(), packets);
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      return HexFormat.of().formatHex(digest.digest(text.getBytes(StandardCharsets.US_ASCII)));
    } catch (NoSuchAlgorithmException e) {
      throw new AssertionError("Every Java platform has SHA-256", e);
    }
  }

  private static String seconds(double value) {
    return String.format(Locale.ROOT, "%.6f", value);
  }
}
