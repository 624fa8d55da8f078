package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NoteNameTest {
  /** Common practice, no source. */
  @ParameterizedTest
  @CsvSource({"C,0,0", "F,-1,5", "F#,6,6", "Bb,-2,10", "Ebb,-10,2", "B#,12,0", "Cb,-7,11"})
  void keepsItsPlaceOnTheLineOfFifths(String text, int fifths, int pitchClass) {
    NoteName name = NoteName.parse(text);
    assertThat(name.fifths()).isEqualTo(fifths);
    assertThat(name.pitchClass()).isEqualTo(pitchClass);
    assertThat(name).hasToString(text);
  }
}
