package undersong.estimate.harmony;

import java.util.List;
import java.util.Optional;
import undersong.reading.ChordSpan;
import undersong.reading.HarmonicFunction;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;
import undersong.theory.ScaleDegree;
import undersong.theory.Spelling;

/**
 * Sees a chord from its key: plain, or as dominant of a chord that follows within two. Conditions
 * after Open Music Theory (applied chords): a major third, a dominant seventh or a diminished chord
 * where the scale has none, leading a fifth down or a semitone up; not in a blues, nor on a tonic
 * that has its lowered seventh as a rule.
 */
final class NumeralTeller {
  private static final int TARGET_WITHIN = 2;

  /** A song whose chords are dominant sevenths for this share of the time is a blues. */
  private static final double BLUES = 0.5;

  private final List<ChordSpan> spans;
  private final boolean blues;

  NumeralTeller(List<ChordSpan> spans) {
    this.spans = spans;
    double sevenths = 0;
    double all = 0;
    for (ChordSpan span : spans) {
      if (span.symbol() instanceof ChordSymbol.Chord chord) {
        all += span.span().lengthSeconds();
        sevenths += isDominantSeventh(chord.quality()) ? span.span().lengthSeconds() : 0;
      }
    }
    blues = sevenths > BLUES * all;
  }

  private static boolean isDominantSeventh(ChordQuality quality) {
    return quality.hasMajorThird() && quality.contains(10);
  }

  RomanNumeral numeral(int index, ChordSymbol.Chord chord, Key key) {
    RomanNumeral plain = Numerals.of(chord, key);
    Optional<ScaleDegree> target = target(index, chord, plain, key);
    return target.map(degree -> Numerals.applied(chord, key, degree)).orElse(plain);
  }

  private Optional<ScaleDegree> target(
      int index, ChordSymbol.Chord chord, RomanNumeral plain, Key key) {
    ChordQuality quality = chord.quality();
    boolean diminished = quality.contains(3) && quality.contains(6);
    boolean dominant = quality.hasMajorThird() && quality.contains(7) && !quality.contains(11);
    if (blues || (!diminished && !dominant) || Numerals.isDiatonic(plain, key)) {
      return Optional.empty();
    }
    int above = chord.root().pitchClass() + (diminished ? 1 : 5);
    int degree = Math.floorMod(above - key.tonic().pitchClass(), 12);
    boolean onTheTonic = chord.root().pitchClass() == key.tonic().pitchClass();
    if (degree == 0 || !key.contains(above) || (onTheTonic && restsOnASeventh(key))) {
      return Optional.empty();
    }
    int left = TARGET_WITHIN;
    for (int i = index + 1; i < spans.size() && left > 0; i++) {
      if (spans.get(i).symbol() instanceof ChordSymbol.Chord next) {
        left--;
        if (next.root().pitchClass() == Math.floorMod(above, 12)) {
          return Optional.of(ScaleDegree.of(key.tonic(), Spelling.name(above, key)));
        }
      }
    }
    return Optional.empty();
  }

  /** Whether the song's own tonic mostly has a lowered seventh: then it leads nowhere. */
  private boolean restsOnASeventh(Key key) {
    double plain = 0;
    double sevenths = 0;
    for (ChordSpan span : spans) {
      if (span.symbol() instanceof ChordSymbol.Chord chord
          && chord.root().pitchClass() == key.tonic().pitchClass()) {
        boolean seventh = isDominantSeventh(chord.quality());
        sevenths += seventh ? span.span().lengthSeconds() : 0;
        plain += seventh ? 0 : span.span().lengthSeconds();
      }
    }
    return sevenths > plain;
  }

  /** What a chord does, as textbooks have it; the subtonic and other colors are "other". */
  static HarmonicFunction function(RomanNumeral numeral, Key key) {
    if (numeral.appliedTo().isPresent()) {
      return HarmonicFunction.APPLIED_DOMINANT;
    }
    boolean minorTriad = numeral.quality().hasMinorThird();
    boolean minorKey = key.mode().hasMinorThird();
    return switch (numeral.root().semitones()) {
      case 0 -> HarmonicFunction.TONIC;
      case 4, 9 -> minorTriad ? HarmonicFunction.TONIC : HarmonicFunction.OTHER;
      case 3 -> minorKey ? HarmonicFunction.TONIC : HarmonicFunction.OTHER;
      case 1, 2, 5, 8 -> HarmonicFunction.PREDOMINANT;
      case 7, 11 -> HarmonicFunction.DOMINANT;
      default -> HarmonicFunction.OTHER;
    };
  }
}
