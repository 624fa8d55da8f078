package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Note names of other languages, transposing instruments, typed chords. */
class WrittenNotesTest {
  /** Common practice of German and Romance schools, no source. */
  @ParameterizedTest
  @CsvSource({
    "C, C, do", "C#, Cis, do#", "Db, Des, reb", "D#, Dis, re#", "Eb, Es, mib", "E, E, mi",
    "Fb, Fes, fab", "F#, Fis, fa#", "G#, Gis, sol#", "Ab, As, lab", "A, A, la", "A#, Ais, la#",
    "Bb, B, sib", "B, H, si", "B#, His, si#", "Cb, Ces, dob", "Ebb, Eses, mibb", "Abb, Ases, labb",
    "Bbb, Heses, sibb", "F##, Fisis, fa##"
  })
  void notesHaveTheirNames(String english, String german, String fixedDo) {
    NoteName note = NoteName.parse(english);
    assertThat(NoteLanguage.ENGLISH.print(note)).isEqualTo(english);
    assertThat(NoteLanguage.GERMAN.print(note)).isEqualTo(german);
    assertThat(NoteLanguage.FIXED_DO.print(note)).isEqualTo(fixedDo);
  }

  @ParameterizedTest
  @CsvSource({
    "Bm7/F#, Hm7/F#, Sim7/Fa#",
    "Bb, B, Sib",
    "Bbb7, Hbb7, Sibb7",
    "Ebmaj7, Ebmaj7, Mibmaj7",
    "N.C., N.C., N.C."
  })
  void chordsTakeTheRootsOfTheLanguage(String english, String german, String fixedDo) {
    ChordSymbol chord = LeadSheet.parse(english);
    assertThat(LeadSheet.print(chord, NoteLanguage.GERMAN)).isEqualTo(german);
    assertThat(LeadSheet.print(chord, NoteLanguage.FIXED_DO)).isEqualTo(fixedDo);
  }

  /** What sounds as C4 is written so; from memory, common practice of orchestration. */
  @ParameterizedTest
  @CsvSource({
    "CONCERT, C4",
    "B_FLAT, D4",
    "B_FLAT_LOW, D5",
    "A, Eb4",
    "E_FLAT, A4",
    "E_FLAT_LOW, A5",
    "F, G4"
  })
  void instrumentsReadHigherThanTheySound(TransposingInstrument instrument, String written) {
    Key cMajor = Key.parse("C major");
    assertThat(instrument.written(SpelledPitch.parse("C4"), cMajor))
        .isEqualTo(SpelledPitch.parse(written));
  }

  @ParameterizedTest
  @CsvSource({
    "C major, B_FLAT, D major",
    "E major, E_FLAT, Db major",
    "F# minor, B_FLAT, G# natural minor",
    "B major, B_FLAT, Db major",
    "Ab major, A, B major",
    "D dorian, F, A dorian"
  })
  void keysWithManyAccidentalsTakeTheSimplerName(
      String sounding, TransposingInstrument instrument, String written) {
    Key key = Key.parse(sounding);
    assertThat(instrument.written(key)).hasToString(written);
    assertThat(Math.abs(instrument.written(key).signatureFifths())).isLessThanOrEqualTo(6);
    ChordSymbol tonic = instrument.written(key.triad(0), key);
    assertThat(((ChordSymbol.Chord) tonic).root()).isEqualTo(instrument.written(key).tonic());
  }

  @Test
  void aTypedChordIsReadEitherWay() {
    assertThat(TypedChord.parse("Am7")).isEqualTo(TypedChord.parse("A:min7"));
    assertThat(TypedChord.parse("C/3")).isEqualTo(TypedChord.parse("C/E"));
    assertThat(TypedChord.parse("N")).isEqualTo(ChordSymbol.NONE);
    assertThat(TypedChord.parse("X")).isEqualTo(ChordSymbol.UNKNOWN);
    assertThatThrownBy(() -> TypedChord.parse("Hm")).hasMessageContaining("Hm");
    assertThatThrownBy(() -> TypedChord.parse("A:blue")).hasMessageContaining("A:blue");
  }
}
