package undersong.estimate.key;

import java.util.List;
import undersong.reading.Chords;
import undersong.reading.Form;
import undersong.theory.ChordSymbol;

/**
 * What the chords say for each of 24 tonics with a major or minor third (0 to 11 major, 12 to 23
 * minor), bar by bar: how common each chord is there, how it moves on, how long the tonic chord is
 * held, and what stands where sections begin and where eight bars have passed. Where a phrase sets
 * out from tells a tonic better than how often a chord is heard.
 *
 * <p>All is divided by the square root of the number of pieces: neighbors do not speak
 * independently, and a long song must not be sure for its length alone.
 */
final class TonicEvidence {
  static final int KEYS = 24;

  private static final double LONGEST_BARS = 4;

  private TonicEvidence() {}

  /** {@code [unit][key]}: log-likelihood; the same for all keys of a unit where no chord begins. */
  static float[][] of(Chords chords, Form form, double[] boundaries) {
    float[][] evidence = new float[boundaries.length - 1][KEYS];
    List<ChordPieces.Piece> pieces = ChordPieces.of(chords.spans(), form, boundaries);
    ChartEvidence charts = ChartEvidence.standard();
    double tempered = 1 / Math.sqrt(Math.max(1, pieces.size()));
    for (int i = 0; i < pieces.size(); i++) {
      ChordPieces.Piece piece = pieces.get(i);
      ChordSymbol.Chord before = i > 0 ? pieces.get(i - 1).chord() : null;
      for (int key = 0; key < KEYS; key++) {
        evidence[piece.unit()][key] += (float) (tempered * ofPiece(charts, piece, before, key));
      }
    }
    for (int key = KEYS / 2; key < KEYS && !pieces.isEmpty(); key++) {
      evidence[pieces.get(0).unit()][key] += (float) charts.minor();
    }
    return evidence;
  }

  private static double ofPiece(
      ChartEvidence charts, ChordPieces.Piece piece, ChordSymbol.Chord before, int key) {
    ChordSymbol.Chord chord = piece.chord();
    double held = Math.sqrt(Math.min(piece.bars(), LONGEST_BARS));
    double said = held * (charts.chord(chord, key) + charts.held(chord, key));
    said += before == null ? 0 : charts.step(before, chord, key);
    said += piece.atSection() ? charts.place(ChartEvidence.Place.SECTION, chord, key) : 0;
    said += piece.atPeriod() ? charts.place(ChartEvidence.Place.EIGHTH_BAR, chord, key) : 0;
    return piece.probability() * said;
  }
}
