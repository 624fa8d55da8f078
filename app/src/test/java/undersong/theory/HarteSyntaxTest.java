package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.theory.ChordSymbol.Chord;

class HarteSyntaxTest {
  /** Texts already in the form that is written; both ways must agree to the letter. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "N",
        "X",
        "C:maj",
        "F#:min",
        "Bb:7",
        "G:min7/b3",
        "A:hdim7/b5",
        "Db:maj7/7",
        "E:sus4",
        "E:sus4(b7)",
        "D:5",
        "D:1",
        "D:1(4)",
        "C:7(b9)",
        "C:7(*5,b9)",
        "C:maj(9)",
        "C:maj/2",
        "C:9",
        "C:maj9",
        "C:min9",
        "C:11",
        "C:13",
        "C:min11",
        "C:maj13",
        "C:min13",
        "C:maj11",
        "C:dim7/bb7",
        "C:aug7",
        "C:maj6",
        "C:min6",
        "C:minmaj7",
        "C:maj(*1)/3",
        "C:maj(#4)",
        "C:min(b6)",
        "Cb:sus2"
      })
  void readsAndWritesTheSameText(String text) {
    assertThat(HarteSyntax.print(HarteSyntax.parse(text))).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "C; C:maj",
        "C/3; C:maj/3",
        "D:(1,5); D:5",
        "D:(1); D:1",
        "D:(5); D:5",
        "C:(3,5); C:maj",
        "C:(b3,5,b7)/b3; C:min7/b3",
        "C:(*1,3,5); C:maj(*1)",
        "C:(1,3); C:maj(*5)",
        "C:(1,3,b7); C:7(*5)",
        "C:(1,b7); C:1(b7)",
        "C:(1,4,5,b7); C:sus4(b7)",
        "C:(3,5,b7,9); C:9",
        "C:maj7(*7); C:maj",
        "C:7(*3); C:5(b7)",
        "C:maj(*3); C:5",
        "C:maj(*3,*5); C:1",
        "C:13(*11); C:9(13)",
        "C:5(b3); C:min",
        "C:1(3); C:maj(*5)",
        "C:sus4(3); C:maj(4)",
        "C:maj(3); C:maj",
        "C:min/9; C:min/2",
        "C:(3,b5,b7); C:7(*5,b5)"
      })
  void givesOtherSpellingsTheirUsualForm(String text, String usual) {
    ChordSymbol symbol = HarteSyntax.parse(text);
    assertThat(HarteSyntax.print(symbol)).isEqualTo(usual);
    assertThat(HarteSyntax.parse(usual)).isEqualTo(symbol);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "", "H:maj", "C:", "C:()", "C:maj(", "C:maj(3", "C:maj(14)", "C:maj(0)", "C:maj(3,)",
        "C:major", "C:m7", "Cm7", "c:maj", "C:maj/", "C:maj/E", "C:maj/b", "C:min(*3)", "C:1(*1)",
        "C:maj(#b3)", "N:maj", "n", " C:maj", "C:maj ", "C:maj(3)(5)", "C:(b1)", "C########"
      })
  void refusesWrongSpellings(String text) {
    assertThatThrownBy(() -> HarteSyntax.parse(text))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("\"" + text + "\"");
  }

  @Test
  void saysWhatIsWrong() {
    assertThatThrownBy(() -> HarteSyntax.parse("C:m7")).hasMessageContaining("lead-sheet");
    assertThatThrownBy(() -> HarteSyntax.parse("C:min(*3)")).hasMessageContaining("does not hold");
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void readsBackEveryChordItWrites(long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < 2_000; i++) {
      Chord chord = RandomChords.any(random);
      String text = HarteSyntax.print(chord);
      assertThat(HarteSyntax.parse(text)).as(text).isEqualTo(chord);
    }
  }

  /** Pitch classes of worked examples: Harte et al. 2005 (from memory) and common practice. */
  @ParameterizedTest
  @CsvSource({
    "'C:(b3,5,b7)/b3', '0 3 7 10'",
    "'C:7(*5,b9)', '0 1 4 10'",
    "C:maj/2, '0 2 4 7'",
    "'A:min(*5)', '0 9'",
    "G:13, '0 2 4 5 7 9 11'",
    "'D:(1,5)', '2 9'",
    "B:dim7, '2 5 8 11'",
    "'C:maj(*1)/3', '4 7'"
  })
  void holdsTheNotesItNames(String text, String pitchClasses) {
    StringBuilder sounding = new StringBuilder();
    int bits = ((Chord) HarteSyntax.parse(text)).pitchClassBits();
    for (int pitchClass = 0; pitchClass < 12; pitchClass++) {
      if ((bits & 1 << pitchClass) != 0) {
        sounding.append(pitchClass).append(' ');
      }
    }
    assertThat(sounding.toString().strip()).isEqualTo(pitchClasses);
  }

  @Test
  void assertsNoThirdWhereNoneSounds() {
    for (String text : new String[] {"D:(1,5)", "D:7(*3)", "D:1", "D:sus4"}) {
      assertThat(((Chord) HarteSyntax.parse(text)).quality().hasNoThird()).as(text).isTrue();
    }
  }
}
