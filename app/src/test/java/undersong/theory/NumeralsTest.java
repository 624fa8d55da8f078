package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.NumeralSettings.Inversions;
import undersong.theory.NumeralSettings.MinorReference;

/** Common practice, no source. */
class NumeralsTest {
  private static final NumeralSettings SLASH =
      NumeralSettings.DEFAULTS.withInversions(Inversions.SLASH);
  private static final NumeralSettings NATURAL =
      NumeralSettings.DEFAULTS.withMinorReference(MinorReference.NATURAL_MINOR);

  @ParameterizedTest
  @CsvSource({
    "C, C major, I, I",
    "Dm7/F, C major, ii6/5, ii7/3",
    "G7/F, C major, V4/2, V7/7",
    "C/G, C major, I6/4, I/5",
    "Bm7b5/D, C major, viiø6/5, viiø7/3",
    "Bdim7/Ab, C major, vii°4/2, vii°7/7",
    "Cmaj7/E, C major, Imaj6/5, Imaj7/3",
    "Bb, C major, bVII, bVII",
    "F/G, C major, IV over 5, IV over 5",
    "G9/B, C major, V9 over 7, V9/3",
    "C6, C major, Iadd6, Iadd6",
    "C, A minor, bIII, bIII",
    "E7/G#, A minor, V6/5, V7/3",
    "Caug, A harmonic minor, bIII+, bIII+",
    "D5, A minor, 4(no 3rd), 4(no 3rd)",
    "'G(no3,no5)', A minor, b7(root alone), b7(root alone)",
    "Gsus4, C major, 5sus4, 5sus4",
    "D5/A, A minor, 4(no 3rd) over 1, 4(no 3rd)/5"
  })
  void writesAChordInItsKey(String symbol, String key, String figures, String slash) {
    Key in = Key.parse(key);
    RomanNumeral numeral = Numerals.of((Chord) LeadSheet.parse(symbol), in);
    assertThat(Numerals.print(numeral, in)).isEqualTo(figures);
    assertThat(Numerals.print(numeral, in, SLASH)).isEqualTo(slash);
    assertThat(LeadSheet.print(Numerals.chord(numeral, in))).isEqualTo(symbol);
  }

  @ParameterizedTest
  @CsvSource({
    "C, III",
    "F, VI",
    "G, VII",
    "G#dim, #vii°",
    "F#dim, #vi°",
    "Am, i",
    "C#m, #iii",
    "E7/B, V4/3"
  })
  void readsMinorAgainstItsNaturalScaleIfAsked(String symbol, String numeral) {
    Key minor = Key.parse("A minor");
    RomanNumeral of = Numerals.of((Chord) LeadSheet.parse(symbol), minor);
    assertThat(Numerals.print(of, minor, NATURAL)).isEqualTo(numeral);
    assertThat(Numerals.parse(numeral, minor, NATURAL)).isEqualTo(of);
  }

  @ParameterizedTest
  @CsvSource({
    "E7, C major, 6, V7/vi, V7 of vi",
    "A7/C#, C major, 2, V65/ii, V7/3 of ii",
    "F#dim7/Eb, C major, 5, vii°42/V, vii°7/7 of V",
    "D7, C major, 5, V7/V, V7 of V",
    "Bb7, A minor, b6, IV7/bVI, IV7 of bVI",
    "C7/Bb, C major, 4, V42/IV, V7/7 of IV"
  })
  void writesAppliedChordsWithOneSlashOnly(
      String symbol, String key, String target, String figures, String slash) {
    Key in = Key.parse(key);
    RomanNumeral numeral =
        Numerals.applied((Chord) LeadSheet.parse(symbol), in, ScaleDegree.parse(target));
    assertThat(Numerals.print(numeral, in)).isEqualTo(figures);
    assertThat(Numerals.print(numeral, in, SLASH)).isEqualTo(slash);
    assertThat(LeadSheet.print(Numerals.chord(numeral, in))).isEqualTo(symbol);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void readsBackEveryNumeralItWrites(long seed) {
    Random random = new Random(seed);
    List<Mode> modes = List.of(Mode.values());
    for (int i = 0; i < 2_000; i++) {
      Key key = new Key(new NoteName(random.nextInt(13) - 6), modes.get(random.nextInt(8)));
      Chord any = RandomChords.any(random);
      Chord plain = ChordSymbol.of(any.root(), any.quality(), any.bass());
      RomanNumeral numeral =
          random.nextBoolean()
              ? Numerals.of(plain, key)
              : Numerals.applied(plain, key, key.degreeOfStep(random.nextInt(7)));
      NumeralSettings settings =
          new NumeralSettings(
              random.nextBoolean() ? MinorReference.MAJOR_SCALE : MinorReference.NATURAL_MINOR,
              random.nextBoolean() ? Inversions.FIGURES : Inversions.SLASH);
      String text = Numerals.print(numeral, key, settings);
      assertThat(Numerals.print(Numerals.parse(text, key, settings), key, settings))
          .isEqualTo(text);
      assertThat(sound(Numerals.parse(text, key, settings), key))
          .as("%s in %s", text, key)
          .isEqualTo(plain.pitchClassBits());
      boolean bothSlashes =
          numeral.appliedTo().isPresent() && text.indexOf('/') != text.lastIndexOf('/');
      assertThat(bothSlashes).as(text).isFalse();
    }
  }

  private static int sound(RomanNumeral numeral, Key key) {
    return Numerals.chord(numeral, key).pitchClassBits();
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "VIII", "Iv", "v°7x", "b#III", "8sus4", "V6/5/V/V", "4", "I/3/V x"})
  void refusesWhatIsNoNumeral(String text) {
    assertThatThrownBy(() -> Numerals.parse(text, Key.parse("C major"), NumeralSettings.DEFAULTS))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("\"" + text + "\"");
  }

  @ParameterizedTest
  @CsvSource({
    "Fm, C major, true", "Ab, C major, true", "Bb, C major, true", "Eb, C major, true",
    "Ddim, C major, true", "Cm, C major, true", "C7, C major, false", "F7, C major, false",
    "D7, C major, false", "Am, C major, false", "E, A minor, false", "D, A minor, false",
    "A, A minor, true", "F5, C major, false", "Db, C major, false"
  })
  void tellsWhatIsBorrowedFromTheParallelMode(String symbol, String key, boolean borrowed) {
    Key in = Key.parse(key);
    RomanNumeral numeral = Numerals.of((Chord) LeadSheet.parse(symbol), in);
    assertThat(Numerals.isBorrowed(numeral, in)).isEqualTo(borrowed);
  }

  @Test
  void respellsAChordFromFarAway() {
    Key key = Key.parse("Cb major");
    RomanNumeral numeral = Numerals.of((Chord) LeadSheet.parse("A#m"), key);
    assertThat(Numerals.print(numeral, key)).isEqualTo("vii");
  }
}
