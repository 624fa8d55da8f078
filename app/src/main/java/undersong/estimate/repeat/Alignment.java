package undersong.estimate.repeat;

import java.util.List;
import undersong.reading.Bar;
import undersong.reading.Meter;
import undersong.reading.Section;

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
  private final BarRoots roots;
  private final int shiftBars;

  private Alignment(Section later, Section earlier, Meter meter, BarRoots roots, int shiftBars) {
    this.later = later;
    this.earlier = earlier;
    this.meter = meter;
    this.roots = roots;
    this.shiftBars = shiftBars;
  }

  static Alignment of(Section later, Section earlier, Meter meter, BarRoots roots) {
    int furthest = Math.max(FURTHEST_BARS, Math.abs(bars(later) - bars(earlier)));
    Alignment best = new Alignment(later, earlier, meter, roots, 0);
    double agreement = best.agreement() + CLEARLY;
    for (int shift = -furthest; shift <= furthest; shift++) {
      Alignment other = new Alignment(later, earlier, meter, roots, shift);
      double otherAgreement = other.agreement();
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
  private double agreement() {
    int same = 0;
    int places = 0;
    for (int bar = later.firstBar(); bar <= later.lastBar(); bar++) {
      int earlierBar = earlierBar(bar);
      for (int half = 0; earlierBar != 0 && half < 2; half++) {
        same += roots.agree(bar, earlierBar, half, semitones()) ? 1 : 0;
        places++;
      }
    }
    // Bars without a counterpart agree with nothing.
    return places == 0
        ? 0
        : (double) same / Math.max(places, 2 * Math.min(bars(later), bars(earlier)));
  }

  /** Share of the half bars that stand under each other and have different roots. */
  double otherRoots() {
    int other = 0;
    int places = 0;
    for (Bar bar : laterBars()) {
      for (int half = 0; half < 2; half++) {
        int under = earlierBar(bar.number());
        other += roots.differ(bar.number(), under, half, semitones()) ? 1 : 0;
        places++;
      }
    }
    return places == 0 ? 1 : (double) other / places;
  }

  private static int bars(Section section) {
    return section.lastBar() - section.firstBar() + 1;
  }
}
