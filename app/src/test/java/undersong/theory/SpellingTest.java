package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.theory.ChordSymbol.Chord;

/** Common practice, no source, unless stated. */
class SpellingTest {
  @ParameterizedTest
  @CsvSource({
    "8, A minor, G#", "8, C major, Ab", "6, C major, F#", "10, A minor, Bb", "6, A minor, F#",
    "1, F minor, Db", "6, Gb major, Gb", "11, Gb major, Cb", "5, F# major, E#", "3, E phrygian, D#",
    "11, F lydian, B", "4, Db major, Fb"
  })
  void writesANoteInItsKey(int pitchClass, String key, String name) {
    assertThat(Spelling.name(pitchClass, Key.parse(key))).hasToString(name);
  }

  @ParameterizedTest
  @CsvSource({
    "8, C major, E7, G#",
    "1, C major, A7, C#",
    "6, C major, D7, F#",
    "8, C major, Fm, Ab",
    "3, A minor, B7, D#",
    "9, C major, E7, A",
    "10, C major, C7, Bb"
  })
  void letsTheSoundingChordDecide(int pitchClass, String key, String chord, String name) {
    assertThat(Spelling.name(pitchClass, Key.parse(key), LeadSheet.parse(chord))).hasToString(name);
  }

  @ParameterizedTest
  @CsvSource({"1, true, C#", "1, false, Db", "10, true, A#", "10, false, Bb", "4, true, E"})
  void writesPassingNotesByTheirDirection(int pitchClass, boolean rising, String name) {
    assertThat(Spelling.passing(pitchClass, Key.parse("C major"), rising)).hasToString(name);
  }

  @ParameterizedTest
  @CsvSource({
    "Dbdim, C major, C#dim",
    "Abdim7, A minor, G#dim7",
    "G#, C major, Ab",
    "A#/C##, F major, Bb/D",
    "Gb, D major, F#"
  })
  void writesAChordInItsKey(String given, String key, String written) {
    Chord chord = (Chord) LeadSheet.parse(given);
    assertThat(LeadSheet.print(Spelling.chord(chord, Key.parse(key)))).isEqualTo(written);
  }

  @ParameterizedTest
  @CsvSource({"C4, 60", "B#3, 60", "Cb4, 59", "A4, 69", "C-1, 0", "G9, 127", "F#3, 54"})
  void numbersPitchesByLetterAndOctave(String pitch, int midi) {
    assertThat(SpelledPitch.parse(pitch).midi()).isEqualTo(midi);
    assertThat(SpelledPitch.ofMidi(midi, SpelledPitch.parse(pitch).name())).hasToString(pitch);
  }

  /** ISO 16: A4 = 440 Hz; equal temperament, middle C from memory of any frequency table. */
  @Test
  void tunesToStandardPitch() {
    assertThat(SpelledPitch.parse("A4").hertz()).isEqualTo(440);
    assertThat(SpelledPitch.parse("A2").hertz()).isEqualTo(110);
    assertThat(SpelledPitch.parse("C4").hertz()).isCloseTo(261.6256, Offset.offset(5e-5));
    assertThat(SpelledPitch.midi(440)).isEqualTo(69);
    assertThatThrownBy(() -> SpelledPitch.midi(0)).hasMessageContaining("above 0");
  }

  @ParameterizedTest
  @CsvSource({
    "A4, C5, minor third, 3, -3",
    "C4, G4, perfect fifth, 7, 1",
    "F4, B4, augmented fourth, 6, 6",
    "B3, F4, diminished fifth, 6, -6",
    "C4, E5, major tenth, 16, 4",
    "C4, C5, perfect octave, 12, 0",
    "G#4, F5, diminished seventh, 9, -9",
    "Ab4, F#5, augmented sixth, 10, 10",
    "E5, C5, major third, 4, 4"
  })
  void namesIntervals(String one, String other, String name, int semitones, int fifths) {
    Interval interval = Interval.between(SpelledPitch.parse(one), SpelledPitch.parse(other));
    assertThat(interval).hasToString(name);
    assertThat(interval.semitones()).isEqualTo(semitones);
    assertThat(interval.fifths()).isEqualTo(fifths);
    assertThat(Interval.parse(name)).isEqualTo(interval);
  }

  @Test
  void climbsAnIntervalAndMeasuresItAgain() {
    Random random = new Random(7);
    for (int i = 0; i < 1_000; i++) {
      NoteName low = new NoteName(random.nextInt(15) - 7);
      NoteName high = new NoteName(random.nextInt(15) - 7);
      Interval interval = Interval.above(low, high);
      assertThat(interval.above(low)).isEqualTo(high);
      assertThat(Math.floorMod(low.pitchClass() + interval.semitones(), 12))
          .isEqualTo(high.pitchClass());
    }
    assertThatThrownBy(() -> Interval.parse("minor fifth")).hasMessageContaining("minor fifth");
  }
}
