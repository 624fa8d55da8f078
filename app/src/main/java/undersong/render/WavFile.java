package undersong.render;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Writes 16-bit PCM in a RIFF/WAVE file (Multimedia Programming Interface and Data Specifications
 * 1.0, 1991). Samples beyond full scale are held there.
 */
public final class WavFile {
  private static final int HEADER_BYTES = 44;
  private static final int BYTES_PER_FRAME = 4;

  private WavFile() {}

  public static void write(StereoAudio audio, Path path) throws IOException {
    int dataBytes = audio.size() * BYTES_PER_FRAME;
    ByteBuffer bytes = ByteBuffer.allocate(HEADER_BYTES + dataBytes).order(ByteOrder.LITTLE_ENDIAN);
    bytes.put(ascii("RIFF")).putInt(HEADER_BYTES - 8 + dataBytes).put(ascii("WAVE"));
    bytes.put(ascii("fmt ")).putInt(16).putShort((short) 1).putShort((short) 2);
    bytes.putInt(StereoAudio.SAMPLE_RATE_HZ);
    bytes.putInt(StereoAudio.SAMPLE_RATE_HZ * BYTES_PER_FRAME);
    bytes.putShort((short) BYTES_PER_FRAME).putShort((short) 16);
    bytes.put(ascii("data")).putInt(dataBytes);
    for (int i = 0; i < audio.size(); i++) {
      bytes.putShort(sixteenBits(audio.left(i))).putShort(sixteenBits(audio.right(i)));
    }
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(path))) {
      out.write(bytes.array());
    }
  }

  private static short sixteenBits(float value) {
    return (short) Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, Math.round(value * 32767)));
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }
}
