package undersong.audio;

import java.io.ByteArrayOutputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import undersong.time.Span;
import undersong.work.Cancellation;

/**
 * A short stretch of a recording as a small file of its own, for a page that carries it.
 *
 * <p><b>Out:</b> MP3, stereo, about 96 kb/s, faded by 20 ms at both ends. <br>
 * <b>Errors:</b> as {@link AudioReader#stream}.
 */
public final class ExcerptEncoder {
  public static final String MEDIA_TYPE = "audio/mpeg";
  private static final double FADE_SECONDS = 0.02;

  private ExcerptEncoder() {}

  public static byte[] encode(Recording recording, Span span, Cancellation cancellation) {
    Path file = recording.path();
    double fadeOut = Math.max(0, span.lengthSeconds() - FADE_SECONDS);
    List<String> arguments = new ArrayList<>(List.of("-v", "error", "-nostdin"));
    arguments.addAll(AudioReader.input(file, java.util.Optional.of(span)));
    arguments.addAll(
        List.of(
            "-map",
            "0:a:0",
            "-map_metadata",
            "-1",
            "-af",
            "afade=t=in:d=%s,afade=t=out:st=%.3f:d=%s"
                .formatted(FADE_SECONDS, fadeOut, FADE_SECONDS)));
    arguments.addAll(List.of("-ac", "2", "-ar", "44100", "-c:a", "libmp3lame", "-b:a", "96k"));
    arguments.addAll(List.of("-f", "mp3", "pipe:1"));
    try (MediaProcess encoder = MediaProcess.start(MediaTool.DECODER, arguments)) {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      byte[] block = new byte[1 << 16];
      int count;
      do {
        cancellation.check();
        count = encoder.read(block);
        bytes.write(block, 0, count);
      } while (count == block.length);
      if (encoder.awaitEnd(cancellation) != 0) {
        throw Refusal.broken(file, encoder);
      }
      return bytes.toByteArray();
    }
  }
}
