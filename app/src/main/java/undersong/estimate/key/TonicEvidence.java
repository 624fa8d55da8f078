package undersong.estimate.key;

import java.util.List;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.theory.ChordQuality;
import undersong.theory.ChordShares;
import undersong.theory.ChordSymbol;

/**
 * What the chords say for each of 24 tonics with a major or minor third (0 to 11 major, 12 to 23
 * minor): how common each chord is there, and how much the tonic chord itself is dwelt on. First
 * and last chord count extra, which tells a key from its relative.
 */
final class TonicEvidence {
  static final int KEYS = 24;

  /** What one bar of a chord weighs against one chord change in the counts. */
  private static final double BAR_WEIGHT = 0.7;

  /** Modes use chords that major and minor songs hardly have: no chord rules a tonic out. */
  private static final double UNUSUAL_SHARE = 0.004;

  private static final double DWELT_ON = 0.6;
  private static final double FIRST_CHORD = 0.8;
  private static final double LAST_CHORD = 2.0;

  private TonicEvidence() {}

  /** {@code [unit][key]}: log-likelihood; all 0 where no chord sounds. */
  static float[][] of(Chords chords, double[] boundaries) {
    float[][] evidence = new float[boundaries.length - 1][KEYS];
    List<ChordSpan> spans = chords.spans();
    int first = 0;
    for (int unit = 0; unit < evidence.length; unit++) {
      double start = boundaries[unit];
      double end = boundaries[unit + 1];
      while (first < spans.size() && spans.get(first).span().endSeconds() <= start) {
        first++;
      }
      for (int i = first; i < spans.size(); i++) {
        ChordSpan span = spans.get(i);
        if (span.span().startSeconds() >= end) {
          break;
        }
        double overlap =
            Math.min(end, span.span().endSeconds()) - Math.max(start, span.span().startSeconds());
        add(evidence[unit], span, overlap / (end - start));
      }
    }
    endpoints(spans, boundaries, evidence);
    return evidence;
  }

  private static void add(float[] out, ChordSpan span, double share) {
    if (span.symbol() instanceof ChordSymbol.Chord chord) {
      double weight = BAR_WEIGHT * Math.sqrt(share) * (0.3 + 0.7 * span.probability());
      for (int key = 0; key < KEYS; key++) {
        double common =
            Math.log(
                UNUSUAL_SHARE
                    + ChordShares.share(
                        key >= 12, chord.root().pitchClass() - key % 12, chord.quality()));
        out[key] += (float) (weight * common);
        if (isTonicOf(chord, key)) {
          out[key] += (float) (DWELT_ON * weight);
        }
      }
    }
  }

  private static boolean isTonicOf(ChordSymbol.Chord chord, int key) {
    if (chord.root().pitchClass() != key % 12) {
      return false;
    }
    ChordQuality quality = chord.quality();
    return key < 12 ? !quality.hasMinorThird() : !quality.hasMajorThird();
  }

  private static void endpoints(List<ChordSpan> spans, double[] boundaries, float[][] evidence) {
    int first = -1;
    int last = -1;
    for (int i = 0; i < spans.size(); i++) {
      if (spans.get(i).symbol() instanceof ChordSymbol.Chord) {
        first = first < 0 ? i : first;
        last = i;
      }
    }
    if (first >= 0) {
      favor(spans.get(first), FIRST_CHORD, boundaries, evidence);
      favor(spans.get(last), LAST_CHORD, boundaries, evidence);
    }
  }

  private static void favor(
      ChordSpan span, double weight, double[] boundaries, float[][] evidence) {
    ChordSymbol.Chord chord = (ChordSymbol.Chord) span.symbol();
    int unit = 0;
    while (unit + 1 < evidence.length && boundaries[unit + 1] <= span.span().startSeconds()) {
      unit++;
    }
    for (int key = 0; key < KEYS; key++) {
      evidence[unit][key] += isTonicOf(chord, key) ? (float) weight : 0;
    }
  }
}
