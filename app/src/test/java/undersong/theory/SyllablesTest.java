package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.SyllableSettings.Minor;
import undersong.theory.SyllableSettings.Modes;

class SyllablesTest {
  private static final SyllableSettings LA = SyllableSettings.DEFAULTS;
  private static final SyllableSettings DO = LA.withMinor(Minor.DO_BASED);
  private static final Key A_MINOR = Key.parse("A minor");

  /** Common practice, no source. */
  @ParameterizedTest
  @CsvSource({
    "A minor, LA_BASED, OWN_SYLLABLE, la ti do re mi fa sol",
    "A harmonic minor, LA_BASED, OWN_SYLLABLE, la ti do re mi fa si",
    "A melodic minor, LA_BASED, OWN_SYLLABLE, la ti do re mi fi si",
    "A minor, DO_BASED, OWN_SYLLABLE, do re me fa sol le te",
    "A melodic minor, DO_BASED, OWN_SYLLABLE, do re me fa sol la ti",
    "D dorian, LA_BASED, OWN_SYLLABLE, re mi fa sol la ti do",
    "D dorian, LA_BASED, ALTERED, la ti do re mi fi sol",
    "D dorian, DO_BASED, ALTERED, do re me fa sol la te",
    "E phrygian, LA_BASED, ALTERED, la te do re mi fa sol",
    "G mixolydian, LA_BASED, OWN_SYLLABLE, sol la ti do re mi fa",
    "G mixolydian, LA_BASED, ALTERED, do re mi fa sol la te",
    "F lydian, DO_BASED, ALTERED, do re mi fi sol la ti",
    "Eb major, LA_BASED, OWN_SYLLABLE, do re mi fa sol la ti"
  })
  void singsScales(String key, Minor minor, Modes modes, String syllables) {
    Key sung = Key.parse(key);
    SyllableSettings settings = new SyllableSettings(minor, modes);
    String ours =
        sung.scale().stream()
            .map(note -> Syllables.print(note, sung, settings))
            .collect(Collectors.joining(" "));
    assertThat(ours).isEqualTo(syllables);
  }

  /** Against solfege.tsv (common knowledge), chromatic both ways and la-based minor. */
  @Test
  void agreesWithTheTableOfSyllables() {
    Key major = Key.parse("C major");
    List<Map<String, String>> rows = TheoryTables.rows("solfege.tsv");
    for (Map<String, String> row : rows) {
      int semitones = Integer.parseInt(row.get("semitones_above_tonic"));
      NoteName sharp = NoteName.ofPitchClass(semitones, 5);
      NoteName flat = NoteName.ofPitchClass(semitones, 0);
      flat = flat.accidental() > 0 ? flat.up(-12) : flat;
      NoteName aboveLa = NoteName.ofPitchClass(9 + semitones, 5);
      assertThat(Syllables.print(sharp, major, LA)).isEqualTo(row.get("sharp_side"));
      assertThat(Syllables.print(flat, major, LA)).isEqualTo(row.get("flat_side"));
      assertThat(Syllables.print(aboveLa, A_MINOR, LA))
          .isEqualTo(row.get("la_based_minor_from_la"));
    }
    assertThat(rows).hasSize(12);
  }

  @Test
  void readsBackEverySyllable() {
    for (String syllable : "do di ra re ri me mi fa fi se sol si le la li te ti".split(" ")) {
      for (int fifths = -7; fifths <= 7; fifths++) {
        for (Mode mode : Mode.values()) {
          for (SyllableSettings settings : List.of(LA, DO, LA.withModes(Modes.ALTERED))) {
            Key key = new Key(new NoteName(fifths), mode);
            NoteName note = Syllables.parse(syllable, key, settings);
            assertThat(Syllables.print(note, key, settings)).isEqualTo(syllable);
          }
        }
      }
    }
    assertThat(Syllables.parse("so", A_MINOR, LA)).hasToString("G");
    assertThatThrownBy(() -> Syllables.parse("ut", A_MINOR, LA)).hasMessageContaining("\"ut\"");
  }

  @Test
  void singsAnUnnamedSpellingAsWhatItSoundsLike() {
    Key major = Key.parse("C major");
    assertThat(Syllables.print(NoteName.parse("E#"), major, LA)).isEqualTo("fa");
    assertThat(Syllables.print(NoteName.parse("Cb"), major, LA)).isEqualTo("ti");
    assertThat(Syllables.print(NoteName.parse("F##"), major, LA)).isEqualTo("sol");
    assertThat(Syllables.print(NoteName.parse("Bbb"), major, LA)).isEqualTo("la");
    assertThat(Syllables.print(NoteName.parse("Gbb"), Key.parse("C# major"), LA)).isEqualTo("mi");
  }

  /** Facts of the trade in la-based minor; common practice, no source. */
  @Test
  void singsTheTonicTriadOfMinorAndItsDiminishedTurn() {
    assertThat(tones("la do mi")).isEqualTo(((Chord) LeadSheet.parse("Am")).tones());
    assertThat(tones("la do me")).isEqualTo(((Chord) LeadSheet.parse("Adim")).tones());
    Chord tonic = (Chord) LeadSheet.parse("Am");
    Chord turned = (Chord) LeadSheet.parse("Adim");
    assertThat(VoiceLeading.distance(tonic, turned)).isEqualTo(1);
    assertThat(Numerals.print(Numerals.of(turned, A_MINOR), A_MINOR)).isEqualTo("i°");
  }

  @Test
  void outlinesTheFourthDegreeAndItsNinth() {
    Chord four = (Chord) LeadSheet.parse("Dm");
    assertThat(Numerals.print(Numerals.of(four, A_MINOR), A_MINOR)).isEqualTo("iv");
    assertThat(roles("la re fa", four)).containsExactly("5", "1", "b3");
    assertThat(roles("la re mi", four)).containsExactly("5", "1", "9");
  }

  @Test
  void hearsTheSameTwoNotesAnewWhenTheBassFallsFromFaToMi() {
    Chord flatSix = (Chord) LeadSheet.parse("F");
    Chord five = (Chord) LeadSheet.parse("E7");
    assertThat(Syllables.print(flatSix.bass(), A_MINOR, LA)).isEqualTo("fa");
    assertThat(Numerals.print(Numerals.of(flatSix, A_MINOR), A_MINOR)).isEqualTo("bVI");
    assertThat(roles("ti re", flatSix)).containsExactly("#11", "13");
    assertThat(Syllables.print(five.bass(), A_MINOR, LA)).isEqualTo("mi");
    assertThat(roles("ti re", five)).containsExactly("5", "b7");
  }

  @Test
  void hearsAMajorFiveInItsRaisedLeadingTone() {
    Chord five =
        ChordSymbol.ofSemitones(
            tones("mi").get(0), semitonesAbove("mi", "si ti"), NoteName.parse("E"));
    assertThat(five.quality()).isEqualTo(ChordQuality.MAJOR);
    assertThat(roles("si", five)).containsExactly("3");
    assertThat(Numerals.print(Numerals.of(five, A_MINOR), A_MINOR)).isEqualTo("V");
    Chord plain =
        ChordSymbol.ofSemitones(
            tones("mi").get(0), semitonesAbove("mi", "sol ti"), NoteName.parse("E"));
    assertThat(Numerals.print(Numerals.of(plain, A_MINOR), A_MINOR)).isEqualTo("v");
  }

  private static java.util.Set<Integer> semitonesAbove(String low, String others) {
    java.util.Set<Integer> semitones = new java.util.TreeSet<>(List.of(0));
    for (NoteName note : tones(others)) {
      semitones.add(Interval.above(tones(low).get(0), note).semitones());
    }
    return semitones;
  }

  private static List<NoteName> tones(String syllables) {
    return Stream.of(syllables.split(" "))
        .map(syllable -> Syllables.parse(syllable, A_MINOR, LA))
        .toList();
  }

  private static List<String> roles(String syllables, Chord chord) {
    List<String> roles = new ArrayList<>();
    for (NoteName note : tones(syllables)) {
      roles.add(ChordDegree.over(chord, note).toString());
    }
    return roles;
  }
}
