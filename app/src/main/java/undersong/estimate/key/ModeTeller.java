package undersong.estimate.key;

import java.util.List;
import undersong.reading.ChordSpan;
import undersong.reading.NoteEvent;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.Mode;
import undersong.time.Span;

/**
 * Tells the mode of a region once its tonic and third are known, by the degrees that differ: which
 * second, fourth, sixth and seventh the chords and the tune dwell on. Sevenths on top of a dominant
 * chord are left out, so that a blues is not mixolydian for its I7 alone.
 */
final class ModeTeller {
  private static final double MELODY_WEIGHT = 0.5;

  /** A variant must be dwelt on this much more than its rival to name a mode. */
  private static final double CLEARLY = 1.4;

  /** The raised seventh names harmonic minor from this share of the lowered one: V is major. */
  private static final double LEADING_TONE = 0.5;

  /** Share of the region below which a degree is a passing color. */
  private static final double COLOR = 0.03;

  private ModeTeller() {}

  /** Which mode, and how surely against the next one. */
  record Told(Mode mode, Mode other, double margin) {}

  static Told tell(
      int tonic, boolean minor, Span region, List<ChordSpan> chords, List<NoteEvent> melody) {
    double[] weights = weights(tonic, region, chords, melody);
    double color = COLOR * region.lengthSeconds();
    return minor ? minor(weights, color) : major(weights, color);
  }

  private static Told major(double[] w, double color) {
    if (w[10] > CLEARLY * w[11] && w[10] > color) {
      return new Told(Mode.MIXOLYDIAN, Mode.MAJOR, margin(w[10], w[11]));
    }
    if (w[6] > CLEARLY * w[5] && w[6] > color) {
      return new Told(Mode.LYDIAN, Mode.MAJOR, margin(w[6], w[5]));
    }
    return new Told(Mode.MAJOR, Mode.MIXOLYDIAN, margin(w[11] + color, w[10]));
  }

  private static Told minor(double[] w, double color) {
    boolean raisedSixth = w[9] > CLEARLY * w[8] && w[9] > color;
    boolean leadingTone = w[11] > LEADING_TONE * w[10] && w[11] > color;
    if (w[1] > CLEARLY * w[2] && w[1] > color) {
      return new Told(Mode.PHRYGIAN, Mode.NATURAL_MINOR, margin(w[1], w[2]));
    }
    if (leadingTone) {
      return raisedSixth
          ? new Told(Mode.MELODIC_MINOR, Mode.HARMONIC_MINOR, margin(w[9], w[8]))
          : new Told(Mode.HARMONIC_MINOR, Mode.NATURAL_MINOR, margin(w[11], LEADING_TONE * w[10]));
    }
    if (raisedSixth) {
      return new Told(Mode.DORIAN, Mode.NATURAL_MINOR, margin(w[9], w[8]));
    }
    Mode rival = w[9] > LEADING_TONE * w[8] ? Mode.DORIAN : Mode.HARMONIC_MINOR;
    return new Told(Mode.NATURAL_MINOR, rival, margin(w[8] + w[10] + color, w[9] + w[11]));
  }

  private static double margin(double winner, double loser) {
    return winner / (winner + loser + 1e-9);
  }

  /** Seconds each degree above the tonic is held in the region. */
  private static double[] weights(
      int tonic, Span region, List<ChordSpan> chords, List<NoteEvent> melody) {
    double[] weights = new double[12];
    for (ChordSpan span : chords) {
      if (span.symbol() instanceof ChordSymbol.Chord chord) {
        double overlap = span.span().overlapSeconds(region);
        for (int semitones : triadAndMajorSeventh(chord.quality())) {
          weights[Math.floorMod(chord.root().pitchClass() + semitones - tonic, 12)] += overlap;
        }
      }
    }
    for (NoteEvent note : melody) {
      weights[Math.floorMod(note.pitchClass() - tonic, 12)] +=
          MELODY_WEIGHT * note.probability() * note.span().overlapSeconds(region);
    }
    return weights;
  }

  private static int[] triadAndMajorSeventh(ChordQuality quality) {
    return java.util.Arrays.stream(quality.semitones())
        .filter(s -> s < 10 || (s == 10 && !quality.hasMajorThird()) || s == 11)
        .toArray();
  }
}
