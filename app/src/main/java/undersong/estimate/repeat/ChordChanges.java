package undersong.estimate.repeat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Repeat.ChordChange;
import undersong.theory.ChordDegree;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.NoteName;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** Where the later copy has another chord, and where it only fills in what was left open. */
final class ChordChanges {
  private static final double SHORTEST_BEATS = 0.6;

  private final Alignment alignment;
  private final Chords chords;
  private final BeatGrid grid;

  ChordChanges(Alignment alignment, Chords chords, BeatGrid grid) {
    this.alignment = alignment;
    this.chords = chords;
    this.grid = grid;
  }

  /**
   * The later copy's chord and what stood in its place before.
   *
   * @param before at the later copy's pitch
   */
  record Pair(Span span, Bar bar, double beat, ChordSpan after, ChordSpan before, Chord moved) {
    double probability() {
      return after.probability() * before.probability();
    }

    Chord now() {
      return (Chord) after.symbol();
    }

    boolean sameRoot() {
      return now().root().pitchClass() == moved.root().pitchClass();
    }
  }

  /** Named chords of both copies that sound at the same place, bar by bar. */
  List<Pair> pairs() {
    List<Pair> pairs = new ArrayList<>();
    for (Bar bar : alignment.laterBars()) {
      double shift = alignment.earlierBeat(0, bar);
      for (ChordSpan after : chords.spans()) {
        if (!after.span().overlaps(bar.span())) {
          continue;
        }
        double from = Math.max(bar.firstBeat(), grid.positionAt(after.span().startSeconds()));
        double to =
            Math.min(
                bar.firstBeat() + (double) bar.beats(), grid.positionAt(after.span().endSeconds()));
        if (to - from < SHORTEST_BEATS) {
          continue;
        }
        double middle = grid.secondsAtPosition((from + to) / 2 + shift);
        Optional<ChordSpan> before = chords.chordAt(Math.max(0, middle));
        if (before.isPresent()
            && after.symbol() instanceof Chord
            && before.get().symbol() instanceof Chord chord) {
          Span span = new Span(grid.secondsAtPosition(from), grid.secondsAtPosition(to));
          double beat = Math.round((from - bar.firstBeat()) * 4) / 4.0 + 1;
          pairs.add(new Pair(span, bar, beat, after, before.get(), moved(chord)));
        }
      }
    }
    return pairs;
  }

  /** Other root, or another third or fifth where both copies have one. */
  static List<ChordChange> changes(List<Pair> pairs, RepeatSettings settings) {
    return pairs.stream()
        .filter(pair -> pair.probability() >= settings.leastProbability())
        .filter(pair -> !pair.sameRoot() || otherTriad(pair))
        .map(
            pair ->
                new ChordChange(
                    pair.span(),
                    pair.bar().number(),
                    pair.beat(),
                    pair.moved(),
                    pair.now(),
                    pair.probability()))
        .toList();
  }

  private static boolean otherTriad(Pair pair) {
    return differs(third(pair.now()), third(pair.moved()))
        || differs(fifth(pair.now()), fifth(pair.moved()));
  }

  private static boolean differs(Optional<Integer> now, Optional<Integer> before) {
    return now.isPresent() && before.isPresent() && !now.equals(before);
  }

  /** Semitones of its third above the root; empty where it has none. */
  static Optional<Integer> third(Chord chord) {
    return degree(chord, 3, 4);
  }

  static Optional<Integer> fifth(Chord chord) {
    return degree(chord, 6, 8);
  }

  private static Optional<Integer> degree(Chord chord, int lowest, int highest) {
    return chord.degrees().stream()
        .map(ChordDegree::semitones)
        .filter(semitones -> semitones >= lowest && semitones <= highest)
        .findFirst();
  }

  private Chord moved(Chord chord) {
    return alignment.semitones() == 0
        ? chord
        : new Chord(
            moved(chord.root()),
            chord.quality(),
            chord.addedSemitones(),
            chord.omittedSemitones(),
            moved(chord.bass()));
  }

  /** Along the line of fifths the shorter way, near enough to its middle that all names exist. */
  private NoteName moved(NoteName name) {
    int semitones = alignment.semitones();
    int fifths = name.fifths() + Math.floorMod(7 * semitones + 5, 12) - 5;
    return NoteName.ofPitchClass(
        Math.floorMod(name.pitchClass() + semitones, 12), Math.max(-9, Math.min(11, fifths)));
  }
}
