package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.theory.ChordSymbol.Chord;

class LeadSheetTest {
  @ParameterizedTest
  @ValueSource(
      strings = {
        "N.C.",
        "?",
        "C",
        "Gm7/Bb",
        "Cmaj7",
        "F#dim7",
        "Bm7b5",
        "Esus4",
        "A5",
        "D7sus4",
        "Bb6/9",
        "Cm(maj7)",
        "Eaug",
        "E7#5",
        "Fadd9",
        "Fm(add9)",
        "G7(b9)",
        "G7(b9,#11)",
        "G9",
        "G13",
        "Am11",
        "C/D",
        "D(no3,no5)",
        "C7(no5)",
        "C7b5",
        "C7b13",
        "Gsus2",
        "Dm6",
        "C6"
      })
  void readsAndWritesTheSameText(String text) {
    assertThat(LeadSheet.print(LeadSheet.parse(text))).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource({
    "CM7, Cmaj7",
    "CΔ, Cmaj7",
    "C^7, Cmaj7",
    "Cma7, Cmaj7",
    "C-7, Cm7",
    "Cmin7, Cm7",
    "Cø, Cm7b5",
    "Co7, Cdim7",
    "C°, Cdim",
    "C+, Caug",
    "C+7, C7#5",
    "Csus, Csus4",
    "C69, C6/9",
    "C11, C9sus4",
    "C2, Cadd9",
    "CmM7, Cm(maj7)",
    "Cm/maj7, Cm(maj7)",
    "C7-9, C7(b9)",
    "B♭m7/D♭, Bbm7/Db",
    "C(omit3), C5",
    "NC, N.C."
  })
  void understandsOtherSpellings(String text, String usual) {
    assertThat(LeadSheet.print(LeadSheet.parse(text))).isEqualTo(usual);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "", "H", "Cfoo", "C7alt", "C4", "Csus4 5", "c7", "C/X", "C7//", "C7/", "C7(b9", "C5 5"
      })
  void refusesWrongSpellings(String text) {
    assertThatThrownBy(() -> LeadSheet.parse(text))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("\"" + text + "\"");
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void readsBackTheNotesItWrites(long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < 2_000; i++) {
      Chord chord = RandomChords.any(random);
      String text = LeadSheet.print(chord);
      assertThat(LeadSheet.parse(text))
          .as("%s written as %s", HarteSyntax.print(chord), text)
          .isEqualTo(ChordNaming.simplest(chord));
    }
  }

  @Test
  void saysInWordsThatARootSoundsAlone() {
    ChordSymbol alone = ChordSymbol.of(NoteName.parse("E"), ChordQuality.ROOT);
    assertThat(LeadSheet.say(alone)).isEqualTo("E alone");
    assertThat(LeadSheet.print(alone)).isEqualTo("E(no3,no5)");
    assertThat(LeadSheet.say(LeadSheet.parse("Bb7/D"))).isEqualTo("Bb7/D");
  }

  @Test
  void saysWhatToWriteInstead() {
    assertThatThrownBy(() -> LeadSheet.parse("C7alt")).hasMessageContaining("7(b9,#5)");
    assertThatThrownBy(() -> LeadSheet.parse("C4")).hasMessageContaining("sus4 or add4");
  }
}
