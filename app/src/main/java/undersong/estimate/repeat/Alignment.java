package undersong.estimate.repeat;

import java.util.List;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Meter;
import undersong.reading.Section;
import undersong.theory.ChordSymbol;
import undersong.time.BeatGrid;

/**
 * Two copies of one section laid beside each other: bar by bar from the start, or shifted where the
 * chords agree clearly better so: by up to two bars (a boundary was placed late), or further where
 * one copy is a fragment of the other.
 */
final class Alignment {
  private static final int FURTHEST_BARS = 2;

  /** A shift must make this much more of the bars agree. */
  private static final double CLEARLY = 0.2;

  private final Section later;
  private final Section earlier;
  private final Meter meter;
  private final BeatGrid grid;
  private final int shiftBars;

  private Alignment(Section later, Section earlier, Meter meter, BeatGrid grid, int shiftBars) {
    this.later = later;
    this.earlier = earlier;
    this.meter = meter;
    this.grid = grid;
    this.shiftBars = shiftBars;
  }

  static Alignment of(Section later, Section earlier, Meter meter, BeatGrid grid, Chords chords) {
    int furthest = Math.max(FURTHEST_BARS, Math.abs(bars(later) - bars(earlier)));
    Alignment best = new Alignment(later, earlier, meter, grid, 0);
    double agreement = best.agreement(chords) + CLEARLY;
    for (int shift = -furthest; shift <= furthest; shift++) {
      Alignment other = new Alignment(later, earlier, meter, grid, shift);
      double otherAgreement = other.agreement(chords);
      if (shift != 0 && otherAgreement > agreement) {
        best = other;
        agreement = otherAgreement;
      }
    }
    return best;
  }

  /** How much higher the music is in the later copy. */
  int semitones() {
    return later.transposedSemitones() - earlier.transposedSemitones();
  }

  /** The bar of the earlier copy that a bar of the later one stands under; 0 where it has none. */
  int earlierBar(int laterBar) {
    int bar = laterBar - later.firstBar() + earlier.firstBar() + shiftBars;
    return bar >= earlier.firstBar() && bar <= earlier.lastBar() ? bar : 0;
  }

  /** Position in the earlier copy of a position in a bar of the later one, in beats. */
  double earlierBeat(double laterBeat, Bar laterBar) {
    return laterBeat - laterBar.firstBeat() + bar(earlierBar(laterBar.number())).firstBeat();
  }

  Bar bar(int number) {
    return meter.bars().get(number - meter.bars().get(0).number());
  }

  /** The bars of the later copy that have a counterpart. */
  List<Bar> laterBars() {
    return meter.bars().stream()
        .filter(bar -> bar.number() >= later.firstBar() && bar.number() <= later.lastBar())
        .filter(bar -> earlierBar(bar.number()) != 0)
        .toList();
  }

  /** Share of the later copy's bars that have a counterpart. */
  double coverage() {
    return (double) laterBars().size() / bars(later);
  }

  Section later() {
    return later;
  }

  Section earlier() {
    return earlier;
  }

  /** Share of half bars with the same root. */
  private double agreement(Chords chords) {
    int same = 0;
    int places = 0;
    for (Bar bar : laterBars()) {
      for (double share : new double[] {0.25, 0.75}) {
        double beat = bar.firstBeat() + share * bar.beats();
        int here = root(chords, grid.secondsAtPosition(beat));
        int there = root(chords, grid.secondsAtPosition(earlierBeat(beat, bar)));
        same += here >= 0 && there >= 0 && here == Math.floorMod(there + semitones(), 12) ? 1 : 0;
        places++;
      }
    }
    // Bars without a counterpart agree with nothing.
    return places == 0
        ? 0
        : (double) same / Math.max(places, 2 * Math.min(bars(later), bars(earlier)));
  }

  private static int bars(Section section) {
    return section.lastBar() - section.firstBar() + 1;
  }

  private static int root(Chords chords, double seconds) {
    return chords
        .chordAt(Math.max(0, seconds))
        .map(ChordSpan::symbol)
        .filter(ChordSymbol.Chord.class::isInstance)
        .map(symbol -> ((ChordSymbol.Chord) symbol).root().pitchClass())
        .orElse(-1);
  }
}
