package undersong.estimate.key;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import undersong.reading.ChordSpan;
import undersong.reading.Form;
import undersong.reading.Section;
import undersong.theory.ChordSymbol;

/**
 * The chords of a song against its bars: where each begins, how long it lasts, and whether it
 * stands where a section begins or at its every eighth bar. A chord that is held is cut at every
 * fourth bar of a section, so that what begins there is seen; a chord that comes a little early
 * counts for the bar it belongs to.
 */
final class ChordPieces {
  /** A chord this close before a bar line, in bars, belongs to the bar behind it. */
  private static final double EARLY_BARS = 0.3;

  private static final int PIECE_BARS = 4;
  private static final int PERIOD_BARS = 8;

  private ChordPieces() {}

  /**
   * One piece.
   *
   * @param unit the bar it begins in
   * @param bars its length
   * @param atSection whether a section begins with it
   * @param atPeriod whether it begins a section or an eighth bar of one
   */
  record Piece(
      ChordSymbol.Chord chord,
      double probability,
      int unit,
      double bars,
      boolean atSection,
      boolean atPeriod) {}

  /**
   * All pieces in order; empty where no chord sounds.
   *
   * @param boundaries seconds, rising, as told by {@link KeyUnits}
   */
  static List<Piece> of(List<ChordSpan> chords, Form form, double[] boundaries) {
    int[] since = sinceSection(form, boundaries);
    List<Piece> pieces = new ArrayList<>();
    for (ChordSpan span : chords) {
      if (!(span.symbol() instanceof ChordSymbol.Chord chord)) {
        continue;
      }
      double from = settled(inBars(span.span().startSeconds(), boundaries));
      double to = settled(inBars(span.span().endSeconds(), boundaries));
      double begin = from;
      for (int bar = (int) Math.ceil(from); bar < to; bar++) {
        if (bar > from && since[bar] % PIECE_BARS == 0) {
          pieces.add(piece(chord, span.probability(), begin, bar, since));
          begin = bar;
        }
      }
      if (to > begin) {
        pieces.add(piece(chord, span.probability(), begin, to, since));
      }
    }
    return pieces;
  }

  private static Piece piece(
      ChordSymbol.Chord chord, double probability, double from, double to, int[] since) {
    int unit = Math.min((int) from, since.length - 1);
    boolean onBar = from == unit;
    return new Piece(
        chord,
        probability,
        unit,
        to - from,
        onBar && since[unit] == 0,
        onBar && since[unit] % PERIOD_BARS == 0);
  }

  /** How many bars ago the section of each bar began. */
  private static int[] sinceSection(Form form, double[] boundaries) {
    Set<Integer> starts = starts(form.sections(), boundaries);
    int[] since = new int[boundaries.length - 1];
    for (int bar = 1; bar < since.length; bar++) {
      since[bar] = starts.contains(bar) ? 0 : since[bar - 1] + 1;
    }
    return since;
  }

  /** The bars in which sections begin. */
  static Set<Integer> starts(List<Section> sections, double[] boundaries) {
    Set<Integer> starts = new TreeSet<>();
    for (Section section : sections) {
      int bar = unitAt(section.span().startSeconds(), boundaries);
      if (bar < boundaries.length - 1) {
        starts.add(bar);
      }
    }
    return starts;
  }

  /** The bar a moment belongs to, the next one where it comes a little early. */
  static int unitAt(double seconds, double[] boundaries) {
    return (int) settled(inBars(seconds, boundaries));
  }

  /** A moment as bars since the beginning, its fraction the share of the bar that has passed. */
  private static double inBars(double seconds, double[] boundaries) {
    int bar = 0;
    while (bar < boundaries.length - 2 && boundaries[bar + 1] <= seconds) {
      bar++;
    }
    double share = (seconds - boundaries[bar]) / (boundaries[bar + 1] - boundaries[bar]);
    return bar + Math.max(0, Math.min(1, share));
  }

  /** To the bar line where it is near: a little early or a breath late. */
  private static double settled(double bars) {
    double line = Math.rint(bars);
    boolean near = bars > line - EARLY_BARS && bars < line + EARLY_BARS / 3;
    return near ? line : bars;
  }
}
