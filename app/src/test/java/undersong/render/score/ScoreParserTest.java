package undersong.render.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.reading.TimeSignature;
import undersong.theory.LeadSheet;

class ScoreParserTest {
  private static final String HEAD =
      """
      title Test
      meter 3/4
      tempo 60
      key A harmonic-minor
      part lead sound plain role melody level -6
      part bass sound bass role bass range E1..E2
      section one role verse letter A bars 2
      chords | Am | F E |
      lead plays | a4 - b4 | . c5 d5 |
      lead sings up-on the hill
      bass follows x--
      """;

  @Test
  void readsFactsPartsAndSections() {
    Score score = ScoreParser.parse(HEAD);
    assertThat(score.meter()).isEqualTo(new TimeSignature(3, false));
    assertThat(score.parts()).extracting(Part::name).containsExactly("lead", "bass");
    assertThat(score.sections().get(0).key()).hasToString("A harmonic minor");
    assertThat(score.sections().get(0).lines().get("lead").mix().get("level")).isEqualTo(-6);
  }

  @Test
  void cutsABarIntoAsManySlotsAsItHasWords() {
    ScoreSection section = ScoreParser.parse(HEAD).sections().get(0);
    assertThat(section.lines().get("lead").notes())
        .containsExactly(
            new Placed<>(0, 2, new Written(69, 0.72, false)),
            new Placed<>(2, 1, new Written(71, 0.72, false)),
            new Placed<>(4, 1, new Written(72, 0.72, false)),
            new Placed<>(5, 1, new Written(74, 0.72, false)));
    assertThat(section.chords())
        .containsExactly(
            new Placed<>(0, 3, LeadSheet.parse("Am")),
            new Placed<>(3, 1.5, LeadSheet.parse("F")),
            new Placed<>(4.5, 1.5, LeadSheet.parse("E")));
  }

  @Test
  void copiesAndTransposesASection() {
    Score score =
        ScoreParser.parse(HEAD + "section two like one role verse letter A bars 2 up major-second");
    ScoreSection copy = score.sections().get(1);
    assertThat(copy.transposedSemitones()).isEqualTo(2);
    assertThat(copy.key()).hasToString("B harmonic minor");
    assertThat(copy.chords().get(0).value()).isEqualTo(LeadSheet.parse("Bm"));
    assertThat(copy.lines().get("lead").notes().get(0).value().midiPitch()).isEqualTo(71);
  }

  @Test
  void letsChordsAndWhatFollowsThemComeEarlyAndNothingElse() {
    String two = "section two like one role verse letter A bars 2 early 0.5";
    Performance performance = Performance.of(ScoreParser.parse(HEAD + two));
    assertThat(performance.chords())
        .extracting(ChordEvent::arrivalBeat)
        .containsExactly(0.0, 3.0, 4.5, 5.5, 8.5, 10.0);
    assertThat(performance.notes(PartRole.BASS))
        .extracting(PlayedNote::startBeat)
        .contains(5.5, 8.5)
        .doesNotContain(6.0);
    assertThat(performance.notes(PartRole.MELODY)).extracting(PlayedNote::startBeat).contains(6.0);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "section x role verse letter B bars 2 like nowhere; no section above",
        "horn plays | a4 | a4 |; no part is called \"horn\"",
        "lead plays | h4 | a4 |; \"h4\" is no pitch",
        "lead plays | a4 | a4 | a4 |; 3 bars are written",
        "lead plays | - | a4 |; holds nothing",
        "chords | H | Am |; must begin with a note name",
        "bass follows x?x; a pattern is made of",
        "lead mix loudness 3; a mix has no \"loudness\"",
        "lead dances wildly; it does not \"dances\"",
        "lead mix level loud; must be a number"
      })
  void tellsTheLineThatCannotBeRead(String line, String why) {
    String before = HEAD + "section two role verse letter A bars 2\n";
    int number = before.split("\n", -1).length;
    assertThatThrownBy(() -> ScoreParser.parse(before + line))
        .isInstanceOf(ScoreException.class)
        .hasMessageStartingWith("Line " + number)
        .hasMessageContaining(why);
  }

  @Test
  void countsSyllablesAgainstNotes() {
    assertThatThrownBy(() -> ScoreParser.parse(HEAD.replace("up-on the hill", "up the hill")))
        .hasMessageContaining("4 notes and 3 syllables")
        .hasMessageContaining("section one");
  }

  @Test
  void leadsVoicesByTheShortestWay() {
    int[] cMajor = Voicing.nearest(chord("C"), new int[0], 60, 72);
    assertThat(cMajor).hasSize(3);
    // C to Am keeps two notes and moves one by a whole tone (common practice, no source).
    int[] before = {60, 64, 67};
    assertThat(Voicing.nearest(chord("Am"), before, 57, 72)).containsExactly(60, 64, 69);
    assertThat(Voicing.nearest(chord("Cm"), before, 57, 72)).containsExactly(60, 63, 67);
  }

  @Test
  void swingsTheSecondEighthOnly() {
    Score score =
        ScoreParser.parse("tempo 60\noffset 0\nswing 2\n" + HEAD.replace("tempo 60\n", ""));
    assertThat(List.of(score.secondsAt(0), score.secondsAt(0.5), score.secondsAt(1)))
        .usingElementComparator((a, b) -> Math.abs(a - b) < 1e-9 ? 0 : 1)
        .containsExactly(0.0, 2.0 / 3, 1.0);
  }

  private static undersong.theory.ChordSymbol.Chord chord(String text) {
    return (undersong.theory.ChordSymbol.Chord) LeadSheet.parse(text);
  }
}
