package undersong.study;

import undersong.feature.SoundPicture;
import undersong.time.Span;

/** The time-frequency picture of a span, in grey; see {@link SoundPicture}. */
public final class SpanPicture {
  private final Span span;
  private final int columns;
  private final byte[] points;

  SpanPicture(Span span, int columns, byte[] points) {
    this.span = span;
    this.columns = columns;
    this.points = points;
  }

  public Span span() {
    return span;
  }

  public int columns() {
    return columns;
  }

  public int rows() {
    return SoundPicture.ROWS;
  }

  /** Pitch at the middle of the lowest row. */
  public double lowestMidi() {
    return SoundPicture.LOWEST_MIDI;
  }

  public int rowsPerSemitone() {
    return SoundPicture.ROWS_PER_SEMITONE;
  }

  /** One byte a point, row by row, highest pitch first; 255 = loudest. */
  public byte[] points() {
    return points.clone();
  }
}
