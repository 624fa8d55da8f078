package undersong.estimate.key;

import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import undersong.reading.ChordSpan;
import undersong.reading.NoteEvent;
import undersong.theory.ChordSymbol;
import undersong.theory.Mode;
import undersong.time.Span;

/**
 * Tells the mode of a region once its tonic and third are known, by the degrees that differ: which
 * second, fourth, sixth and seventh the chords and the tune dwell on. The seventh on top of a tonic
 * chord is left out, so that a blues is not mixolydian for its I7 alone; so is the third of a
 * dominant of the dominant, so that II7 V does not make a song lydian.
 */
final class ModeTeller {
  private static final double MELODY_WEIGHT = 0.5;

  /** Log of how much more a variant must be dwelt on than its rival to name a mode. */
  private static final double CLEARLY = Math.log(1.4);

  /** Log of the share of the lowered seventh from which the raised one names harmonic minor. */
  private static final double LEADING_TONE = Math.log(0.5);

  /** Share of the region below which a degree is a passing color. */
  private static final double COLOR = 0.03;

  private static final double HEARD_WEIGHT = 0.5;
  private static final int MAJOR_THIRD = 4;
  private static final int SECOND = 2;
  private static final int FIFTH = 7;
  private static final int MINOR_SEVENTH = 10;

  private ModeTeller() {}

  /** Which mode, which next, and the probability that it is not the next one. */
  record Told(Mode mode, Mode other, double margin) {}

  /**
   * @param heard log-probability that the ear gives each mode over the region, against the others
   *     on this tonic; 0 for all where nobody heard
   */
  static Told tell(
      int tonic,
      boolean minor,
      Span region,
      List<ChordSpan> chords,
      List<NoteEvent> melody,
      Map<Mode, Double> heard) {
    double[] weights = weights(tonic, region, chords, melody);
    double color = COLOR * region.lengthSeconds() + 1e-6;
    Map<Mode, Double> scores = minor ? minor(weights, color) : major(weights, color);
    scores.replaceAll((mode, score) -> score + HEARD_WEIGHT * heard.getOrDefault(mode, 0.0));
    List<Mode> ranked =
        scores.keySet().stream().sorted(Comparator.comparingDouble(m -> -scores.get(m))).toList();
    double ahead = scores.get(ranked.get(0)) - scores.get(ranked.get(1));
    return new Told(ranked.get(0), ranked.get(1), 1 / (1 + Math.exp(-ahead)));
  }

  private static Map<Mode, Double> major(double[] w, double color) {
    Map<Mode, Double> scores = new EnumMap<>(Mode.class);
    scores.put(Mode.MAJOR, 0.0);
    scores.put(Mode.MIXOLYDIAN, log(w[10], w[11], color) - CLEARLY);
    scores.put(Mode.LYDIAN, log(w[6], w[5], color) - CLEARLY);
    return scores;
  }

  private static Map<Mode, Double> minor(double[] w, double color) {
    double leadingTone = log(w[11], w[10], color) - LEADING_TONE;
    double raisedSixth = log(w[9], w[8], color) - CLEARLY;
    Map<Mode, Double> scores = new EnumMap<>(Mode.class);
    scores.put(Mode.NATURAL_MINOR, 0.0);
    scores.put(Mode.HARMONIC_MINOR, leadingTone);
    scores.put(Mode.DORIAN, raisedSixth);
    scores.put(Mode.MELODIC_MINOR, leadingTone + raisedSixth);
    scores.put(Mode.PHRYGIAN, log(w[1], w[2], color) - CLEARLY);
    return scores;
  }

  /** How much more one variant of a degree is dwelt on than its rival; near 0 for both rare. */
  private static double log(double variant, double rival, double color) {
    return Math.log((variant + color) / (rival + color));
  }

  /** Seconds each degree above the tonic is held in the region. */
  private static double[] weights(
      int tonic, Span region, List<ChordSpan> chords, List<NoteEvent> melody) {
    double[] weights = new double[12];
    for (int i = 0; i < chords.size(); i++) {
      ChordSpan span = chords.get(i);
      double overlap = span.span().overlapSeconds(region);
      if (overlap > 0 && span.symbol() instanceof ChordSymbol.Chord chord) {
        int root = Math.floorMod(chord.root().pitchClass() - tonic, 12);
        boolean leads = i + 1 < chords.size() && leadsToFifth(root, chords.get(i + 1), tonic);
        for (int semitones : chord.quality().semitones()) {
          boolean blue = root == 0 && semitones == MINOR_SEVENTH && chord.quality().hasMajorThird();
          if (!blue && !(leads && semitones == MAJOR_THIRD)) {
            weights[(root + semitones) % 12] += overlap;
          }
        }
      }
    }
    for (NoteEvent note : melody) {
      weights[Math.floorMod(note.pitchClass() - tonic, 12)] +=
          MELODY_WEIGHT * note.probability() * note.span().overlapSeconds(region);
    }
    return weights;
  }

  /** Whether a chord on the second degree leads to the fifth. */
  private static boolean leadsToFifth(int root, ChordSpan next, int tonic) {
    return root == SECOND
        && next.symbol() instanceof ChordSymbol.Chord target
        && Math.floorMod(target.root().pitchClass() - tonic, 12) == FIFTH;
  }
}
