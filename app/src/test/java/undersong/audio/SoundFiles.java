package undersong.audio;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.work.Cancellation;

/**
 * Writes sound files for tests: WAV by hand, other formats through the decoder's own executable.
 */
public final class SoundFiles {
  private SoundFiles() {}

  /** Value of a channel at a time, -1 to 1. */
  @FunctionalInterface
  public interface Wave {
    double at(double seconds, int channel);
  }

  public static Wave sine(double hz, double amplitude) {
    return (seconds, channel) -> amplitude * Math.sin(2 * Math.PI * hz * seconds);
  }

  /** A WAV file of 32-bit floats. */
  public static Path wav(Path file, int rateHz, int channels, double seconds, Wave wave)
      throws IOException {
    int frames = (int) Math.round(seconds * rateHz);
    int dataBytes = frames * channels * 4;
    ByteBuffer header = ByteBuffer.allocate(44).order(ByteOrder.LITTLE_ENDIAN);
    header.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + dataBytes);
    header.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    header.putShort((short) 3).putShort((short) channels).putInt(rateHz);
    header.putInt(rateHz * channels * 4).putShort((short) (channels * 4)).putShort((short) 32);
    header.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(dataBytes);
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
      out.write(header.array());
      ByteBuffer frame = ByteBuffer.allocate(4 * channels).order(ByteOrder.LITTLE_ENDIAN);
      for (int i = 0; i < frames; i++) {
        frame.clear();
        for (int channel = 0; channel < channels; channel++) {
          frame.putFloat((float) wave.at((double) i / rateHz, channel));
        }
        out.write(frame.array());
      }
    }
    return file;
  }

  /** Encodes with the given options of the decoder's executable. */
  public static Path encode(Path from, Path to, String... options) {
    List<String> arguments = new ArrayList<>(List.of("-v", "error", "-nostdin", "-y"));
    arguments.addAll(List.of("-i", "file:" + from));
    arguments.addAll(Arrays.asList(options));
    arguments.add("file:" + to);
    try (MediaProcess process = MediaProcess.start(MediaTool.DECODER, arguments)) {
      assertThat(process.readText(new Cancellation())).isEmpty();
      assertThat(process.awaitEnd(new Cancellation())).as(process.errors()).isZero();
    }
    return to;
  }

  /** All samples, interleaved. */
  public static float[] decode(Recording recording) {
    return collect(AudioReader.samples(recording, new Cancellation()));
  }

  public static float[] collect(SampleStream samples) {
    float[][] all = {new float[0]};
    samples.to(
        (block, frames) -> {
          int length = all[0].length;
          all[0] = Arrays.copyOf(all[0], length + 2 * frames);
          System.arraycopy(block, 0, all[0], length, 2 * frames);
        });
    return all[0];
  }
}
