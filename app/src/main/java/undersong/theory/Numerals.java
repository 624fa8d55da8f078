package undersong.theory;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import undersong.theory.ChordSymbol.Chord;

/**
 * Chords seen from a key and back, and the numerals' writing. A numeral holds root, quality and
 * bass; degrees added to a chord have no place in it. Common practice, no source.
 */
public final class Numerals {
  private Numerals() {}

  /**
   * The numeral of a chord in a key. A chord spelled far outside the key is respelled in it first.
   */
  public static RomanNumeral of(Chord chord, Key key) {
    return above(key.tonic(), Optional.empty(), near(chord, key.tonic(), key));
  }

  /** The numeral of a chord heard as dominant of the target degree: V7/5, vii°/2. */
  public static RomanNumeral applied(Chord chord, Key key, ScaleDegree target) {
    NoteName passingTonic = target.above(key.tonic());
    Chord written = near(chord, passingTonic, new Key(passingTonic, Mode.MAJOR));
    return above(passingTonic, Optional.of(target), written);
  }

  private static Chord near(Chord chord, NoteName tonic, Key key) {
    boolean rootIsNear = Math.abs(chord.root().fifths() - tonic.fifths() - 2) <= 14;
    boolean bassIsNear = Math.abs(chord.bass().fifths() - tonic.fifths() - 2) <= 15;
    return rootIsNear && bassIsNear ? chord : Spelling.chord(chord, key);
  }

  private static RomanNumeral above(NoteName tonic, Optional<ScaleDegree> target, Chord chord) {
    return new RomanNumeral(
        ScaleDegree.of(tonic, chord.root()),
        chord.quality(),
        ScaleDegree.of(tonic, chord.bass()),
        target);
  }

  /** The chord a numeral stands for, spelled in the key. */
  public static Chord chord(RomanNumeral numeral, Key key) {
    NoteName tonic =
        numeral.appliedTo().map(target -> target.above(key.tonic())).orElse(key.tonic());
    return ChordSymbol.of(
        numeral.root().above(tonic), numeral.quality(), numeral.bass().above(tonic));
  }

  /** Writes a numeral; a chord without third has no case: {@code 4(no 3rd)}, {@code 5sus4}. */
  public static String print(RomanNumeral numeral, Key key, NumeralSettings settings) {
    return new NumeralPrinter(key, settings).print(numeral);
  }

  /** Writes a numeral read against the major scale, inversions by figures. */
  public static String print(RomanNumeral numeral, Key key) {
    return print(numeral, key, NumeralSettings.DEFAULTS);
  }

  /** Reads what {@link #print} writes under the same settings; throws on anything else. */
  public static RomanNumeral parse(String text, Key key, NumeralSettings settings) {
    return new NumeralReader(key, settings).read(text);
  }

  /** Typed numerals one by one: blanks and commas part them, but not what {@link #print} blanks. */
  public static List<String> split(String text) {
    String joined = text.strip().replaceAll("\\((no|root)\\s+(3rd|alone)\\)", "($1_$2)");
    String whole = joined.replaceAll("\\s+over\\s+(?=[b#]*[1-7](?:[\\s,]|$))", "_over_");
    return Arrays.stream(whole.split("[\\s,]+", -1))
        .filter(word -> !word.isEmpty())
        .map(word -> word.replace('_', ' '))
        .toList();
  }

  /**
   * Whether every member of the chord belongs to the key: to its scale, or in minor to any of its
   * three forms.
   */
  public static boolean isDiatonic(RomanNumeral numeral, Key key) {
    return belongs(chord(numeral, key), key, 4);
  }

  /**
   * Whether the chord's triad is foreign to the key but at home in the parallel mode (minor for
   * major keys, mixolydian and lydian; major for the others). Sevenths are not asked, so a blues
   * seventh borrows nothing; an applied chord or one without third never counts.
   *
   * <p>Source: Open Music Theory, chapter on modal mixture (raised 6 and 7 in minor are no mixture;
   * from memory).
   */
  public static boolean isBorrowed(RomanNumeral numeral, Key key) {
    if (numeral.appliedTo().isPresent() || numeral.quality().hasNoThird()) {
      return false;
    }
    Chord chord = chord(numeral, key);
    Mode other = key.mode().hasMinorThird() ? Mode.MAJOR : Mode.NATURAL_MINOR;
    return !belongs(chord, key, 3) && belongsTo(chord, key.parallel(other), 3);
  }

  private static boolean belongs(Chord chord, Key key, int members) {
    if (!key.mode().isMinor()) {
      return belongsTo(chord, key, members);
    }
    return belongsTo(chord, key.parallel(Mode.NATURAL_MINOR), members)
        || belongsTo(chord, key.parallel(Mode.HARMONIC_MINOR), members)
        || belongsTo(chord, key.parallel(Mode.MELODIC_MINOR), members);
  }

  private static boolean belongsTo(Chord chord, Key key, int members) {
    return chord.quality().degrees().stream()
        .limit(members)
        .allMatch(degree -> key.contains(chord.root().pitchClass() + degree.semitones()));
  }
}
