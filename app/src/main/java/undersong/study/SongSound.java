package undersong.study;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.ShortBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import undersong.audio.AudioReader;
import undersong.feature.SoundPicture;
import undersong.render.WavWriter;
import undersong.shelf.Shelf;
import undersong.shelf.Song;
import undersong.time.Span;
import undersong.work.Cancellation;

/**
 * The sound of the songs on the shelf, to be played and looked at: decoded once into a file, from
 * which everything here is read.
 */
public final class SongSound {
  private static final double LONGEST_PICTURE_SECONDS = 60;

  private final Shelf shelf;
  private final CurrentReadings readings;
  private final Renderings renderings;

  SongSound(Shelf shelf, CurrentReadings readings, Renderings renderings) {
    this.shelf = shelf;
    this.readings = readings;
    this.renderings = renderings;
  }

  /**
   * The whole recording as a WAV file, 16-bit stereo at 44.1 kHz; its first frame is time 0. Made
   * once and kept for a while: open it now, do not keep the path. Throws {@link
   * undersong.work.Trouble.UnreadableRecording} where the recording is gone.
   *
   * <p><b>Cost:</b> decoding, the first time.
   */
  public Path file(long songId) {
    return file(songId, new Cancellation());
  }

  /** As {@link #file(long)}; decoding can be cancelled. */
  public Path file(long songId, Cancellation cancellation) {
    Song song = shelf.songs().get(songId);
    return renderings.whole(readings.recording(song), cancellation);
  }

  /**
   * Lowest and highest sample of evenly wide columns of a span, both channels together.
   *
   * @param lowest from -1
   * @param highest to 1
   */
  public record Peaks(Span span, List<Float> lowest, List<Float> highest) {
    public Peaks {
      lowest = List.copyOf(lowest);
      highest = List.copyOf(highest);
    }
  }

  /** The waveform of a span. <b>Cost:</b> reads the span. */
  public Peaks peaks(long songId, Span asked, int columns) {
    Span span = Renderings.insideOf(shelf.songs().get(songId), asked);
    List<Float> lowest = new ArrayList<>(columns);
    List<Float> highest = new ArrayList<>(columns);
    try (Frames frames = new Frames(file(songId))) {
      for (int column = 0; column < columns; column++) {
        double width = span.lengthSeconds() / columns;
        long from = frame(span.startSeconds() + column * width);
        long to = Math.max(from + 1, frame(span.startSeconds() + (column + 1) * width));
        ShortBuffer samples = frames.read(from, to);
        short low = 0;
        short high = 0;
        while (samples.hasRemaining()) {
          short sample = samples.get();
          low = sample < low ? sample : low;
          high = sample > high ? sample : high;
        }
        lowest.add((float) low / Short.MAX_VALUE);
        highest.add((float) high / Short.MAX_VALUE);
      }
      return new Peaks(span, lowest, highest);
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }

  /** The time-frequency picture of a span, cut after a minute. */
  public SpanPicture picture(long songId, Span asked, int columns) {
    Span inside = Renderings.insideOf(shelf.songs().get(songId), asked);
    double end = Math.min(inside.endSeconds(), inside.startSeconds() + LONGEST_PICTURE_SECONDS);
    Span span = new Span(inside.startSeconds(), end);
    long first = frame(span.startSeconds()) - SoundPicture.MARGIN;
    long last = frame(span.endSeconds()) + SoundPicture.MARGIN;
    float[] mono = new float[(int) (last - first)];
    try (Frames frames = new Frames(file(songId))) {
      long from = Math.max(0, first);
      ShortBuffer samples = frames.read(from, last);
      for (int i = (int) (from - first); samples.remaining() >= 2; i++) {
        mono[i] = (samples.get() + samples.get()) / (2f * Short.MAX_VALUE);
      }
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
    byte[] points =
        new SoundPicture(AudioReader.SAMPLE_RATE_HZ)
            .draw(mono, SoundPicture.MARGIN, mono.length - SoundPicture.MARGIN, columns);
    return new SpanPicture(span, columns, points);
  }

  private static long frame(double seconds) {
    return Math.round(seconds * AudioReader.SAMPLE_RATE_HZ);
  }

  /** Frames of a WAV file of ours. */
  private static final class Frames implements AutoCloseable {
    private final FileChannel channel;
    private final long frames;

    Frames(Path file) throws IOException {
      channel = FileChannel.open(file);
      frames = (channel.size() - WavWriter.HEADER_BYTES) / WavWriter.BYTES_PER_FRAME;
    }

    /** Samples, left and right in turn; fewer where the file ends. */
    ShortBuffer read(long from, long to) throws IOException {
      long count = Math.max(0, Math.min(to, frames) - from);
      ByteBuffer bytes = ByteBuffer.allocate((int) count * WavWriter.BYTES_PER_FRAME);
      long at = WavWriter.HEADER_BYTES + from * WavWriter.BYTES_PER_FRAME;
      while (bytes.hasRemaining()) {
        int read = channel.read(bytes, at + bytes.position());
        if (read < 0) {
          break;
        }
      }
      return bytes.flip().order(ByteOrder.LITTLE_ENDIAN).asShortBuffer();
    }

    @Override
    public void close() throws IOException {
      channel.close();
    }
  }
}
