package undersong.desk;

import io.javalin.http.ContentTooLargeResponse;
import io.javalin.http.RequestTimeoutResponse;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** The body of an upload, which may neither grow nor take without end. */
final class UploadStream extends FilterInputStream {
  private final long mostBytes;
  private final long deadlineNanoseconds;
  private final long longestMilliseconds;
  private long bytes;

  UploadStream(InputStream body, long mostBytes, long longestMilliseconds) {
    super(body);
    this.mostBytes = mostBytes;
    this.longestMilliseconds = longestMilliseconds;
    this.deadlineNanoseconds = System.nanoTime() + longestMilliseconds * 1_000_000;
  }

  static String tooLarge(long mostBytes) {
    return "The recording is larger than %d MiB, the most that is taken."
        .formatted(mostBytes >> 20);
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
  }

  @Override
  public int read(byte[] into, int offset, int length) throws IOException {
    int count = super.read(into, offset, length);
    bytes += Math.max(0, count);
    if (bytes > mostBytes) {
      throw new ContentTooLargeResponse(tooLarge(mostBytes));
    }
    if (System.nanoTime() - deadlineNanoseconds > 0) {
      throw new RequestTimeoutResponse(
          "The recording took longer than %d s to arrive.".formatted(longestMilliseconds / 1000));
    }
    return count;
  }
}
