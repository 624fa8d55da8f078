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
import java.util.Set;
import java.util.function.LongFunction;
import undersong.audio.AudioReader;
import undersong.feature.SoundPicture;
import undersong.reading.Correction;
import undersong.render.PlainTones;
import undersong.render.WavWriter;
import undersong.render.focus.Focus;
import undersong.shelf.Hearing;
import undersong.shelf.Shelf;
import undersong.shelf.Song;
import undersong.shelf.StoredReading;
import undersong.technique.Technique;
import undersong.time.Span;
import undersong.work.Cancellation;
import undersong.work.Trouble;

/**
 * The sound of the songs on the shelf, to be played and looked at: decoded once into a file, from
 * which waveform and pictures are read; and what is made for listening from it or from the reading.
 */
public final class SongSound {
  private static final double LONGEST_PICTURE_SECONDS = 60;

  private final Shelf shelf;
  private final CurrentReadings readings;
  private final Renderings renderings;
  private final Contrasts contrasts;
  private final LongFunction<Studied> reading;

  /**
   * @param reading of a song as it stands
   */
  SongSound(
      Shelf shelf,
      CurrentReadings readings,
      Renderings renderings,
      Contrasts contrasts,
      LongFunction<Studied> reading) {
    this.shelf = shelf;
    this.readings = readings;
    this.renderings = renderings;
    this.contrasts = contrasts;
    this.reading = reading;
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
   * A stretch of the recording, listened to by one side of it: a WAV file, 16-bit stereo at 44.1
   * kHz, whose first sample is the span's first. As loud as the recording over the span, never
   * louder. Made once and kept for a while: read it now, do not keep the path.
   *
   * @param span cut where the recording ends
   */
  public Path focus(long songId, Focus focus, Span span, Cancellation cancellation) {
    Song song = shelf.songs().get(songId);
    return renderings.focus(
        readings.recording(song), focus, Renderings.insideOf(song, span), cancellation);
  }

  /**
   * The check by ear: a stretch of the reading as it stands, played by plain tones, to be laid over
   * the recording. A file like that of {@link #focus}.
   *
   * @param layers what is played
   */
  public Path check(
      long songId, Set<PlainTones.Layer> layers, Span span, Cancellation cancellation) {
    StoredReading stands = reading.apply(songId).stored();
    Song song = shelf.songs().get(songId);
    return renderings.check(
        readings.recording(song), stands, layers, Renderings.insideOf(song, span), cancellation);
  }

  /**
   * The bars of a finding without its technique, by plain tones: a file like that of {@link
   * #focus}. Throws {@link Trouble.NotOnShelf} where no such finding begins there, or none that can
   * be taken out.
   *
   * @param atSeconds where the finding begins
   */
  public Path plain(
      long songId, Technique technique, double atSeconds, Span span, Cancellation cancellation) {
    return contrasts.plain(reading.apply(songId), technique, atSeconds, span, cancellation);
  }

  /**
   * The song as a listener heard it, by plain tones: what is read with that one word in its place.
   * A file like that of {@link #focus}. Throws {@link Trouble.NotOnShelf} where nobody heard such a
   * thing, or where it is none that sounds (a key).
   */
  public Path heard(long songId, long hearingId, Span span, Cancellation cancellation) {
    Hearing hearing =
        shelf.hearings().of(songId).stream()
            .filter(one -> one.id() == hearingId)
            .filter(one -> !(one.heard() instanceof Correction.KeyOver))
            .findFirst()
            .orElseThrow(
                () ->
                    new Trouble.NotOnShelf(
                        "Song %d has no hearing %d of a chord or note. Maybe it was taken away."
                            .formatted(songId, hearingId)));
    return contrasts.heard(reading.apply(songId), hearing, span, cancellation);
  }

  /**
   * A part as a later copy of a section has it, by plain tones, where the earlier copy stands that
   * it is held against: to be laid over that. A file like that of {@link #focus}.
   *
   * @param letter and occurrence of the later copy
   * @param part {@code bass}, {@code melody}, {@code voice-2}, {@code line-1} ...
   * @param span in the earlier copy
   */
  public Path partOver(
      long songId,
      String letter,
      int occurrence,
      String part,
      Span span,
      Cancellation cancellation) {
    return contrasts.partOver(reading.apply(songId), letter, occurrence, part, span, cancellation);
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
