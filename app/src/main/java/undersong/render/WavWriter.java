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
 * Writes 16-bit stereo PCM in a RIFF/WAVE file, block by block (Multimedia Programming Interface
 * and Data Specifications 1.0, 1991). Samples beyond full scale are held there.
 */
public final class WavWriter implements AutoCloseable {
  public static final int HEADER_BYTES = 44;
  public static final int BYTES_PER_FRAME = 4;

  private final OutputStream out;

  /**
   * @param frames pairs of samples that will follow; the header states it
   */
  public WavWriter(Path path, long frames) throws IOException {
    long dataBytes = frames * BYTES_PER_FRAME;
    if (dataBytes + HEADER_BYTES > 0xffff_ffffL) {
      throw new IOException(
          "A WAVE file of %d frames is too large; its format ends at 4 GB.".formatted(frames));
    }
    ByteBuffer header = ByteBuffer.allocate(HEADER_BYTES).order(ByteOrder.LITTLE_ENDIAN);
    header.put(ascii("RIFF")).putInt((int) (HEADER_BYTES - 8 + dataBytes)).put(ascii("WAVE"));
    header.put(ascii("fmt ")).putInt(16).putShort((short) 1).putShort((short) 2);
    header.putInt(StereoAudio.SAMPLE_RATE_HZ);
    header.putInt(StereoAudio.SAMPLE_RATE_HZ * BYTES_PER_FRAME);
    header.putShort((short) BYTES_PER_FRAME).putShort((short) 16);
    header.put(ascii("data")).putInt((int) dataBytes);
    out = new BufferedOutputStream(Files.newOutputStream(path), 1 << 16);
    out.write(header.array());
  }

  public void write(float left, float right) throws IOException {
    write(left);
    write(right);
  }

  private void write(float value) throws IOException {
    int sample =
        Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, Math.round(value * Short.MAX_VALUE)));
    out.write(sample);
    out.write(sample >> 8);
  }

  @Override
  public void close() throws IOException {
    out.close();
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }
}
