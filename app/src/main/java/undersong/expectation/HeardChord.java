package undersong.expectation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Facet;
import undersong.reading.Keys;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.NoteName;
import undersong.time.BeatGrid;

/**
 * One chord of a song in its place.
 *
 * @param source the span it begins with
 * @param chord counted from the tonic that holds from here on
 * @param judgedFrom the tonic that held before: a listener judges a lift by the key just left
 * @param minor whether the key that held before has a minor third
 */
record HeardChord(
    ChordSpan source, KeyedChord chord, NoteName judgedFrom, boolean minor, Place place) {
  /**
   * Where a chord arrives, in half-beats.
   *
   * @param halfBeat from the bar line, 0 = on it
   * @param beatsInBar of the bar it arrives in; 0 where there are no bars
   * @param waited since the chord before arrived; 0 for the first, or where there is no pulse
   */
  record Place(int halfBeat, int beatsInBar, int waited) {}

  /** The chord as the key just left shows it. */
  KeyedChord judged(Chord symbol) {
    return KeyedChord.of(symbol, judgedFrom);
  }

  /** The chords of a song in order, equal neighbors joined; empty without chords or keys. */
  static List<HeardChord> of(Reading reading) {
    Keys keys = reading.get(Facet.KEYS);
    List<HeardChord> heard = new ArrayList<>();
    Optional<Key> before = Optional.empty();
    double lastPosition = Double.NaN;
    for (ChordSpan span : reading.get(Facet.CHORDS).spans()) {
      Optional<Key> key = keys.keyAt(span.span().middleSeconds());
      if (key.isEmpty() || !(span.symbol() instanceof Chord symbol)) {
        continue;
      }
      KeyedChord chord = KeyedChord.of(symbol, key.get().tonic());
      boolean goesOn = !heard.isEmpty() && heard.get(heard.size() - 1).chord.equals(chord);
      if (goesOn && before.equals(key)) {
        continue;
      }
      double position = position(reading, span.span().startSeconds());
      Key judged = before.orElse(key.get());
      heard.add(
          new HeardChord(
              span,
              chord,
              judged.tonic(),
              judged.mode().hasMinorThird(),
              place(reading, position, lastPosition)));
      before = key;
      lastPosition = position;
    }
    return heard;
  }

  private static double position(Reading reading, double seconds) {
    BeatGrid grid = reading.get(Facet.BEATS).grid();
    return grid.isEmpty() ? Double.NaN : grid.positionAt(seconds);
  }

  private static Place place(Reading reading, double position, double lastPosition) {
    Meter meter = reading.get(Facet.METER);
    if (Double.isNaN(position) || meter.bars().isEmpty()) {
      return new Place(0, 0, 0);
    }
    double nearest = Math.rint(position * 2) / 2;
    Bar bar = barAt(meter, nearest);
    int halfBeat = Math.floorMod(Math.round(2 * (nearest - bar.firstBeat())), 2 * bar.beats());
    int waited =
        Double.isNaN(lastPosition)
            ? 0
            : (int) Math.max(1, Math.rint(2 * (position - lastPosition)));
    return new Place(halfBeat, bar.beats(), waited);
  }

  private static Bar barAt(Meter meter, double beat) {
    int low = 0;
    int high = meter.bars().size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      boolean begun = meter.bars().get(middle).firstBeat() <= beat;
      low = begun ? middle : low;
      high = begun ? high : middle - 1;
    }
    return meter.bars().get(low);
  }
}
