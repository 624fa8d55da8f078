package undersong.render;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Writes sound that lies in memory as a {@link WavWriter} does. */
public final class WavFile {
  private WavFile() {}

  public static void write(StereoAudio audio, Path path) throws IOException {
    try (WavWriter writer = new WavWriter(path, audio.size())) {
      for (int i = 0; i < audio.size(); i++) {
        writer.write(audio.left(i), audio.right(i));
      }
    }
  }

  /** The same in memory. */
  public static byte[] bytes(StereoAudio audio) {
    try {
      Path file = Files.createTempFile("undersong", ".wav");
      try {
        write(audio, file);
        return Files.readAllBytes(file);
      } finally {
        Files.deleteIfExists(file);
      }
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }
}
