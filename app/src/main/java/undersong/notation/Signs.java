package undersong.notation;

import java.util.ArrayList;
import java.util.List;

/**
 * How a length is written: as one sign where a reader still sees the beat, as several tied ones
 * where not. Common practice, no source: a sign that begins on a beat may last as long as one sign
 * can within the bar; one that begins off the beat ends with it, but for a syncopation of one
 * beat's length that begins half-way; rests do not cross beats they did not begin on, nor the
 * middle of a bar of four.
 */
final class Signs {
  /** A piece of a length: one sign. */
  record Piece(int startTicks, int ticks, NoteValue value, boolean triplet) {}

  private final int barTicks;
  private final int beatTicks;
  private final List<Boolean> triplets;

  /**
   * @param triplets by beat of the bar, whether it is divided in three against its nature
   */
  Signs(int barTicks, int beatTicks, List<Boolean> triplets) {
    this.barTicks = barTicks;
    this.beatTicks = beatTicks;
    this.triplets = List.copyOf(triplets);
  }

  /** The signs of a note or rest from one tick of the bar to another. */
  List<Piece> write(int from, int to, boolean rest) {
    List<Piece> pieces = new ArrayList<>();
    int at = from;
    while (at < to) {
      Piece piece = next(at, to, rest);
      pieces.add(piece);
      at += piece.ticks();
    }
    return pieces;
  }

  private Piece next(int at, int to, boolean rest) {
    int beat = at / beatTicks;
    int beatStart = beat * beatTicks;
    int beatEnd = Math.min(barTicks, beatStart + beatTicks);
    boolean wholeBeat = at == beatStart && to >= beatEnd;
    if (triplets.get(beat) && !wholeBeat) {
      return triplet(at, Math.min(to, beatEnd));
    }
    int limit = at == beatStart ? onBeat(at, to, rest) : offBeat(at, to, beatStart, beatEnd, rest);
    for (NoteValue value : NoteValue.longestFirst()) {
      if (value.ticks() <= limit - at && fits(at, value.ticks(), rest)) {
        return new Piece(at, value.ticks(), value, false);
      }
    }
    throw new IllegalStateException(
        "No sign lasts from tick %d to %d of a bar of %d.".formatted(at, to, barTicks));
  }

  /** Within three in the time of two: the longest sign that fits, none dotted. */
  private static Piece triplet(int at, int end) {
    for (NoteValue value : NoteValue.longestFirst()) {
      int ticks = value.ticks() * 2 / 3;
      if (value.dots() == 0 && value.ticks() * 2 % 3 == 0 && ticks <= end - at) {
        return new Piece(at, ticks, value, true);
      }
    }
    throw new IllegalStateException("No sign of a triplet lasts %d ticks.".formatted(end - at));
  }

  private int onBeat(int at, int to, boolean rest) {
    int limit = to;
    int middle = barTicks / 2;
    boolean even = barTicks % (4 * beatTicks) == 0;
    if (rest && even && at > 0 && at < middle) {
      limit = Math.min(limit, middle);
    }
    // A triplet beat on the way is written for itself.
    for (int beat = at / beatTicks; beat * beatTicks < limit; beat++) {
      if (triplets.get(beat) && limit < (beat + 1) * beatTicks) {
        return Math.max(beat * beatTicks, at + 1);
      }
    }
    return limit;
  }

  private int offBeat(int at, int to, int beatStart, int beatEnd, boolean rest) {
    if (to <= beatEnd || rest) {
      return Math.min(to, beatEnd);
    }
    boolean halfway = 2 * (at - beatStart) == beatTicks;
    boolean overMiddle = barTicks % (4 * beatTicks) == 0 && beatEnd == barTicks / 2;
    int syncopation = at + beatTicks;
    boolean nextIsTriplet = triplets.get(Math.min(triplets.size() - 1, beatEnd / beatTicks));
    return halfway && !overMiddle && !nextIsTriplet && syncopation == to && syncopation <= barTicks
        ? syncopation
        : beatEnd;
  }

  /** Dotted signs only where they are read easily: on a beat, or filling one. */
  private boolean fits(int at, int ticks, boolean rest) {
    boolean onBeat = at % beatTicks == 0;
    boolean compound = beatTicks % 36 == 0;
    if (compound && onBeat && ticks > beatTicks && ticks % beatTicks != 0) {
      return false;
    }
    if (compound && onBeat && ticks < beatTicks) {
      return ticks % 12 == 0 || ticks < 12 || ticks == 18;
    }
    if (rest && !compound && onBeat && ticks > beatTicks && ticks % beatTicks != 0) {
      return false;
    }
    return true;
  }
}
