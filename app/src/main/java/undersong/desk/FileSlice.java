package undersong.desk;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;

/** Part of an open file, read from its beginning to its end. Closes the file with itself. */
final class FileSlice extends InputStream {
  private final FileChannel file;
  private final long end;
  private long at;

  FileSlice(FileChannel file, ByteRange range) {
    this.file = file;
    this.at = range.first();
    this.end = range.last() + 1;
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
  }

  @Override
  public int read(byte[] bytes, int offset, int length) throws IOException {
    int wanted = (int) Math.min(length, end - at);
    if (wanted <= 0) {
      return length == 0 ? 0 : -1;
    }
    int count = file.read(ByteBuffer.wrap(bytes, offset, wanted), at);
    at += Math.max(0, count);
    return count;
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
