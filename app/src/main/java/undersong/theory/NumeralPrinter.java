package undersong.theory;

import java.util.List;
import undersong.theory.NumeralSettings.Inversions;
import undersong.theory.NumeralSettings.MinorReference;

/** Writes numerals in one key under one setting. */
final class NumeralPrinter {
  static final List<String> ROMAN = List.of("I", "II", "III", "IV", "V", "VI", "VII");
  static final List<String> TRIAD_FIGURES = List.of("", "6", "6/4");
  static final List<String> SEVENTH_FIGURES = List.of("7", "6/5", "4/3", "4/2");
  private static final NoteName ANY_TONIC = new NoteName(0);

  private final Key key;
  private final NumeralSettings settings;

  NumeralPrinter(Key key, NumeralSettings settings) {
    this.key = key;
    this.settings = settings;
  }

  String print(RomanNumeral numeral) {
    boolean applied = numeral.appliedTo().isPresent();
    boolean slashes = settings.inversions() == Inversions.SLASH;
    int place = placeOfBass(numeral);
    String target =
        numeral.appliedTo().map(degree -> (slashes ? " of " : "/") + target(degree)).orElse("");
    String written = head(numeral, applied) + mark(numeral.quality());
    if (place < 0 || (place > 0 && !slashes && !hasFigures(numeral.quality()))) {
      return written + figure(numeral.quality(), 0) + target + " over " + bassInKey(numeral);
    }
    if (slashes) {
      String member = place == 0 ? "" : "/" + (1 + 2 * place);
      return written + figure(numeral.quality(), 0) + member + target;
    }
    String figure = figure(numeral.quality(), place);
    return written + (applied ? figure.replace("/", "") : figure) + target;
  }

  /** Accidental and numeral; without third the bare degree, which has no case. */
  private String head(RomanNumeral numeral, boolean applied) {
    String accidental = accidental(numeral.root(), applied ? 0 : reference(numeral.root().step()));
    if (numeral.quality().hasNoThird()) {
      return accidental + numeral.root().step();
    }
    String roman = ROMAN.get(numeral.root().step() - 1);
    return accidental + (numeral.quality().hasMinorThird() ? lower(roman) : roman);
  }

  /** Alteration of a step that is written without accidental. */
  int reference(int step) {
    boolean natural =
        settings.minorReference() == MinorReference.NATURAL_MINOR && key.mode().hasMinorThird();
    return natural && (step == 3 || step == 6 || step == 7) ? -1 : 0;
  }

  private static String accidental(ScaleDegree degree, int reference) {
    int signs = degree.alteration() - reference;
    return (signs >= 0 ? "#" : "b").repeat(Math.abs(signs));
  }

  private String target(ScaleDegree degree) {
    boolean inScale = key.degreeOfStep(degree.step() - 1).equals(degree);
    boolean minor = inScale && key.triad(degree.step() - 1).quality().hasMinorThird();
    String roman = ROMAN.get(degree.step() - 1);
    return accidental(degree, reference(degree.step())) + (minor ? lower(roman) : roman);
  }

  private static String lower(String roman) {
    return roman.toLowerCase(java.util.Locale.ROOT);
  }

  static String mark(ChordQuality quality) {
    return switch (quality) {
      case DIMINISHED, DIMINISHED_SEVENTH -> "°";
      case HALF_DIMINISHED_SEVENTH -> "ø";
      case AUGMENTED -> "+";
      case MAJOR_SEVENTH, MINOR_MAJOR_SEVENTH, MAJOR_NINTH -> "maj";
      case MAJOR_SIXTH, MINOR_SIXTH -> "add6";
      case SUSPENDED_SECOND -> "sus2";
      case SUSPENDED_FOURTH -> "sus4";
      case FIFTH -> "(no 3rd)";
      case ROOT -> "(root alone)";
      default -> "";
    };
  }

  static boolean isSeventh(ChordQuality quality) {
    return quality.degrees().size() == 4 && quality.degrees().get(3).number() == 7;
  }

  static boolean isNinth(ChordQuality quality) {
    return quality.degrees().size() == 5;
  }

  private static boolean hasFigures(ChordQuality quality) {
    boolean triadWithThird = quality.degrees().size() == 3 && !quality.hasNoThird();
    return triadWithThird || isSeventh(quality);
  }

  private static String figure(ChordQuality quality, int place) {
    if (isSeventh(quality)) {
      return SEVENTH_FIGURES.get(place);
    }
    if (isNinth(quality)) {
      return "9";
    }
    return hasFigures(quality) ? TRIAD_FIGURES.get(place) : "";
  }

  /** 0 root, 1 third, 2 fifth, 3 seventh in the bass; -1 for any other note. */
  private static int placeOfBass(RomanNumeral numeral) {
    if (!numeral.isInverted()) {
      return 0;
    }
    NoteName root = numeral.root().above(ANY_TONIC);
    NoteName bass = numeral.bass().above(ANY_TONIC);
    for (ChordDegree degree : numeral.quality().degrees()) {
      boolean stackedInThirds = degree.number() % 2 == 1 && degree.number() <= 7;
      if (stackedInThirds && degree.above(root).equals(bass)) {
        return (degree.number() - 1) / 2;
      }
    }
    return -1;
  }

  /** The bass as a degree of the key's own tonic, against its major scale. */
  private static ScaleDegree bassInKey(RomanNumeral numeral) {
    NoteName tonic = numeral.appliedTo().map(target -> target.above(ANY_TONIC)).orElse(ANY_TONIC);
    NoteName bass = numeral.bass().above(tonic);
    boolean near = bass.fifths() >= -15 && bass.fifths() <= 19;
    return ScaleDegree.of(
        ANY_TONIC, near ? bass : NoteName.ofPitchClass(bass.pitchClass(), ANY_TONIC.fifths()));
  }
}
