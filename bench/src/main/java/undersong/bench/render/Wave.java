package undersong.bench.render;

import java.io.BufferedOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;

/** Reads and writes 16-bit stereo WAV files at 44.1 kHz: the one format the bench mixes in. */
public final class Wave {
  public static final int RATE_HZ = 44_100;
  private static final int HEADER_BYTES = 44;
  private static final int FRAME_BYTES = 4;

  private Wave() {}

  /** The mean of both channels over a stretch; zeros beyond the file's end. */
  static float[] readMono(Path path, double startSeconds, double lengthSeconds) throws IOException {
    float[] samples = new float[(int) Math.round(lengthSeconds * RATE_HZ)];
    try (RandomAccessFile file = new RandomAccessFile(path.toFile(), "r")) {
      long start = HEADER_BYTES + FRAME_BYTES * Math.round(startSeconds * RATE_HZ);
      int bytes =
          (int) Math.max(0, Math.min(file.length() - start, (long) FRAME_BYTES * samples.length));
      byte[] raw = new byte[bytes];
      file.seek(Math.min(start, file.length()));
      file.readFully(raw);
      ByteBuffer buffer = ByteBuffer.wrap(raw).order(ByteOrder.LITTLE_ENDIAN);
      for (int i = 0; i < bytes / FRAME_BYTES; i++) {
        samples[i] = (buffer.getShort() + buffer.getShort()) / 65536f;
      }
    }
    return samples;
  }

  /** Writes two channels, clipped to the range -1 to 1. */
  public static void writeStereo(Path path, float[] left, float[] right) throws IOException {
    ByteBuffer buffer =
        ByteBuffer.allocate(HEADER_BYTES + FRAME_BYTES * left.length)
            .order(ByteOrder.LITTLE_ENDIAN);
    buffer.put("RIFF".getBytes(java.nio.charset.StandardCharsets.US_ASCII));
    buffer.putInt(36 + FRAME_BYTES * left.length);
    buffer.put("WAVEfmt ".getBytes(java.nio.charset.StandardCharsets.US_ASCII));
    buffer.putInt(16).putShort((short) 1).putShort((short) 2);
    buffer.putInt(RATE_HZ).putInt(RATE_HZ * FRAME_BYTES);
    buffer.putShort((short) FRAME_BYTES).putShort((short) 16);
    buffer.put("data".getBytes(java.nio.charset.StandardCharsets.US_ASCII));
    buffer.putInt(FRAME_BYTES * left.length);
    for (int i = 0; i < left.length; i++) {
      buffer.putShort(step(left[i])).putShort(step(right[i]));
    }
    try (DataOutputStream out =
        new DataOutputStream(new BufferedOutputStream(Files.newOutputStream(path)))) {
      out.write(buffer.array());
    }
  }

  private static short step(float value) {
    return (short) Math.round(32767 * Math.max(-1, Math.min(1, value)));
  }
}
