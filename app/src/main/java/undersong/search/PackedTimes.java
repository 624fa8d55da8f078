package undersong.search;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.List;
import undersong.search.Places.Place;
import undersong.time.Span;

/**
 * Begins, ends and bars of a row of events in three to four bytes each: what differs from the event
 * before, in hundredths of a second, seven bits a byte (LEB128, small negatives folded in). They
 * are read one after the other, and only once something was found.
 */
final class PackedTimes {
  private static final double STEPS_PER_SECOND = 100;

  private final byte[] packed;

  PackedTimes(byte[] packed) {
    this.packed = packed;
  }

  /** One event: what is packed of it. */
  record Moment(double startSeconds, double endSeconds, int bar) {}

  static PackedTimes of(List<Moment> moments) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(4 * moments.size());
    int start = 0;
    int bar = 0;
    for (Moment moment : moments) {
      int begins = steps(moment.startSeconds());
      put(bytes, begins - start);
      put(bytes, steps(moment.endSeconds()) - begins);
      put(bytes, moment.bar() - bar);
      start = begins;
      bar = moment.bar();
    }
    return new PackedTimes(bytes.toByteArray());
  }

  byte[] bytes() {
    return packed;
  }

  /** The first of these events, as many as asked for. */
  Moment[] first(int count) {
    Moment[] moments = new Moment[count];
    int[] at = {0};
    int start = 0;
    int bar = 0;
    for (int i = 0; i < count; i++) {
      start += next(at);
      int length = next(at);
      bar += next(at);
      moments[i] = new Moment(start / STEPS_PER_SECOND, (start + length) / STEPS_PER_SECOND, bar);
    }
    return moments;
  }

  /** From the begin of one event to the end of another. */
  static Place place(Moment from, Moment to) {
    return new Place(
        new Span(from.startSeconds(), to.endSeconds()), from.bar(), Math.max(from.bar(), to.bar()));
  }

  private static int steps(double seconds) {
    return (int) Math.round(STEPS_PER_SECOND * seconds);
  }

  private static void put(ByteArrayOutputStream bytes, int value) {
    int folded = (value << 1) ^ (value >> 31);
    while ((folded & ~0x7f) != 0) {
      bytes.write((folded & 0x7f) | 0x80);
      folded >>>= 7;
    }
    bytes.write(folded);
  }

  private int next(int[] at) {
    int folded = 0;
    int shift = 0;
    byte read;
    do {
      read = packed[at[0]++];
      folded |= (read & 0x7f) << shift;
      shift += 7;
    } while (read < 0);
    return (folded >>> 1) ^ -(folded & 1);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof PackedTimes times && Arrays.equals(packed, times.packed);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(packed);
  }
}
