package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.theory.ChordSymbol.Chord;

class KeyTest {
  /** Common practice, no source. */
  @ParameterizedTest
  @CsvSource({
    "C major, 0, C D E F G A B",
    "A minor, 0, A B C D E F G",
    "A harmonic minor, 0, A B C D E F G#",
    "A melodic minor, 0, A B C D E F# G#",
    "D dorian, 0, D E F G A B C",
    "G mixolydian, 0, G A B C D E F",
    "E phrygian, 0, E F G A B C D",
    "F lydian, 0, F G A B C D E",
    "Gb major, -6, Gb Ab Bb Cb Db Eb F",
    "D# minor, 6, D# E# F# G# A# B C#"
  })
  void spellsItsScaleWithOneLetterEach(String key, int signatureFifths, String notes) {
    assertThat(joined(Key.parse(key).scale())).isEqualTo(notes);
    assertThat(Key.parse(key).signatureFifths()).isEqualTo(signatureFifths);
  }

  @Test
  void refusesUnknownModes() {
    assertThatThrownBy(() -> Key.parse("C happy")).hasMessageContaining("C happy");
    assertThatThrownBy(() -> Key.parse("major")).hasMessageContaining("major");
  }

  /** Against diatonic-chords-tonal.tsv (npm tonal 6.4.2): chords, their notes and numerals. */
  @Test
  void buildsTheChordsOfEveryKey() {
    List<Map<String, String>> rows = TheoryTables.rows("diatonic-chords-tonal.tsv");
    for (Map<String, String> row : rows) {
      Key key = keyOf(row);
      int step = Integer.parseInt(row.get("degree")) - 1;
      Chord triad = key.triad(step);
      assertThat(joined(triad.tones())).as(row.toString()).isEqualTo(row.get("triad_notes"));
      assertThat(LeadSheet.parse(row.get("triad"))).as(row.toString()).isEqualTo(triad);
      String numeral = Numerals.print(Numerals.of(triad, key), key);
      assertThat(numeral).as(row.toString()).isEqualTo(row.get("roman_triad"));
      RomanNumeral readBack = Numerals.parse(row.get("roman_triad"), key, NumeralSettings.DEFAULTS);
      assertThat(Numerals.chord(readBack, key)).as(row.toString()).isEqualTo(triad);
      assertThat(Numerals.isDiatonic(readBack, key)).isTrue();
      assertThat(Numerals.isBorrowed(readBack, key)).isFalse();
      // The table calls melodic minor's tonic seventh a sixth chord; its notes are compared anyway.
      Chord seventh = (Chord) LeadSheet.parse(row.get("seventh"));
      assertThat(joined(seventh.tones())).as(row.toString()).isEqualTo(row.get("seventh_notes"));
      if (!row.get("seventh").endsWith("m6")) {
        assertThat(key.seventh(step)).as(row.toString()).isEqualTo(seventh);
      }
    }
    assertThat(rows).hasSizeGreaterThan(390);
  }

  private static Key keyOf(Map<String, String> row) {
    String mode =
        switch (row.get("mode")) {
          case "major" -> "major";
          case "minor-natural" -> "natural minor";
          case "minor-harmonic" -> "harmonic minor";
          case "minor-melodic" -> "melodic minor";
          default -> throw new AssertionError(row.toString());
        };
    return Key.parse(row.get("key") + " " + mode);
  }

  /** Against scales-tonal.tsv (npm tonal 6.4.2). */
  @Test
  void agreesWithTheTableOfScales() {
    Map<String, String> pitchClasses =
        TheoryTables.rows("scales-tonal.tsv").stream()
            .collect(Collectors.toMap(row -> row.get("name"), row -> row.get("pitch_classes")));
    for (Mode mode : Mode.values()) {
      String name = mode == Mode.NATURAL_MINOR ? "minor" : mode.words();
      String ours =
          new Key(NoteName.parse("C"), mode)
              .scale().stream()
                  .map(note -> String.valueOf(note.pitchClass()))
                  .collect(Collectors.joining(" "));
      assertThat(ours).as(name).isEqualTo(pitchClasses.get(name));
    }
  }

  static String joined(List<NoteName> notes) {
    return notes.stream().map(NoteName::toString).collect(Collectors.joining(" "));
  }
}
