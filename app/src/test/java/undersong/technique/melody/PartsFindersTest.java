package undersong.technique.melody;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.estimate.SoundedFeatures;
import undersong.estimate.motif.CellMotifs;
import undersong.estimate.motif.MotifSettings;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.Lines;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.Voice;
import undersong.reading.Voices;
import undersong.technique.WrittenSong;
import undersong.time.Span;

/**
 * The conditions are those of the technique catalogue; common practice, no source, but for the
 * first.
 */
class PartsFindersTest {
  private static Reading written(WrittenSong song, Voices voices, Lines lines) {
    Reading reading =
        song.reading().with(Facet.VOICES, Derived.of(voices)).with(Facet.LINES, Derived.of(lines));
    return reading.with(
        Facet.MOTIFS,
        new CellMotifs(MotifSettings.DEFAULTS)
            .estimate(new SoundedFeatures(1, 0).features(), reading, Corrections.NONE));
  }

  private static List<String> told(Reading reading) {
    return WrittenSong.told(MelodyFinders.all(), reading).stream()
        .filter(words -> !words.startsWith("register") && !words.startsWith("melodic"))
        .toList();
  }

  private static WrittenSong fourBars() {
    return WrittenSong.in("C major").section(SectionRole.VERSE, "A", "C | Dm | Em | F");
  }

  /** Open Music Theory, sequences: the same shape, one step of the scale higher. */
  @Test
  void aFigureThatClimbsIsASequence() {
    WrittenSong song =
        fourBars()
            .tune(
                "e4@0-1 d4@1-1.5 c4@1.5-2 g4@2-4 f4@4-5 e4@5-5.5 d4@5.5-6 a4@6-8"
                    + " g4@8-9 f4@9-9.5 e4@9.5-10 b4@10-12 c5@12-16");
    assertThat(told(written(song, Voices.NONE, Lines.NONE)))
        .containsExactly("pattern-sequence 1-3");
  }

  @Test
  void aBassFigureThatGoesRoundIsARiffAndNoSequence() {
    WrittenSong song =
        WrittenSong.in("G minor")
            .section(SectionRole.VERSE, "A", "Gm | Gm | Gm | Gm")
            .bass(
                "g1@0-1 g1@1.5-2 bb1@2-3 f1@3-4 g1@4-5 g1@5.5-6 bb1@6-7 f1@7-8 g1@8-9 g1@9.5-10"
                    + " bb1@10-11 f1@11-12 g1@12-13 g1@13.5-14 bb1@14-15 f1@15-16");
    assertThat(told(written(song, Voices.NONE, Lines.NONE))).containsExactly("riff 1-4");
  }

  @Test
  void aTuneRefittedToEveryChordIsASequenceButABassIsNot() {
    String notes =
        "c3@0-1.5 c3@1.5-2 d3@2-3 e3@3-4 d3@4-5.5 d3@5.5-6 f3@6-7 a3@7-8"
            + " e3@8-9.5 e3@9.5-10 f3@10-11 a3@11-12 f3@12-13.5 f3@13.5-14 a3@14-15 b3@15-16";
    assertThat(told(written(fourBars().tune(notes), Voices.NONE, Lines.NONE)))
        .anyMatch(words -> words.startsWith("pattern-sequence"));
    assertThat(told(written(fourBars().bass(notes), Voices.NONE, Lines.NONE))).isEmpty();
  }

  @Test
  void aBrokenChordIsNeither() {
    WrittenSong song =
        fourBars()
            .tune(
                "c4@0-1 e4@1-2 g4@2-3 e4@3-4 d4@4-5 f4@5-6 a4@6-7 f4@7-8"
                    + " e4@8-9 g4@9-10 b4@10-11 g4@11-12 f4@12-13 a4@13-14 c5@14-15 a4@15-16");
    assertThat(told(written(song, Voices.NONE, Lines.NONE))).isEmpty();
  }

  private static Voices beside(Reading reading, int... semitones) {
    List<NoteEvent> lead = reading.get(Facet.MELODY).notes();
    List<NoteEvent> notes = new ArrayList<>();
    for (int i = 0; i < lead.size(); i++) {
      NoteEvent note = lead.get(i);
      int away = semitones[i % semitones.length];
      notes.add(new NoteEvent(note.span(), note.midiPitch() + away, 1));
    }
    return new Voices(
        List.of(Voice.beside(reading.get(Facet.MELODY), "voice-2", notes, List.of())));
  }

  private static final String PLAIN =
      "c5@0-1 d5@1-2 e5@2-4 g5@5-6 f5@6-6.5 e5@6.5-8 d5@9-10 c5@10-11 b4@11-12 c5@13-16";

  @Test
  void thirdsBelowAreParallelHarmonyAndOctavesADoubling() {
    WrittenSong song = fourBars().tune(PLAIN);
    Reading reading = song.reading();
    assertThat(told(written(song, beside(reading, -3, -4), Lines.NONE)))
        .containsExactly("parallel-harmony 1-4");
    assertThat(told(written(song, beside(reading, 12), Lines.NONE)))
        .containsExactly("octave-doubling 1-4");
  }

  @Test
  void fifthsAndSecondsAreNeither() {
    WrittenSong song = fourBars().tune(PLAIN);
    assertThat(told(written(song, beside(song.reading(), -7, -2, -5), Lines.NONE))).isEmpty();
  }

  private static Voices answering(String notes) {
    Reading other = fourBars().tune(notes).reading();
    return new Voices(
        List.of(
            Voice.beside(
                undersong.reading.Melody.NONE,
                "voice-2",
                other.get(Facet.MELODY).notes(),
                List.of())));
  }

  @Test
  void shortPhrasesThatInterleaveAreCallAndResponse() {
    WrittenSong song = fourBars().tune("c5@0-1 e5@1-2 d5@4-5 g5@5-5.5 c5@8-9 e5@9-10.5 d5@12-13");
    Voices answers = answering("g4@2.5-3.5 e4@6.5-7 f4@7-7.5 g4@11-11.5 e4@14-15");
    assertThat(told(written(song, answers, Lines.NONE))).contains("call-and-response 1-4");
    Voices along = answering("g4@0-2 e4@4-5.5 f4@8-10.5 g4@12-13");
    assertThat(told(written(song, along, Lines.NONE)))
        .noneMatch(words -> words.startsWith("call-and-response"));
  }

  @Test
  void aFigureTakenOverIsToldWhereItIsTaken() {
    NoteEvent note = new NoteEvent(new Span(4, 5), 60, 1);
    Lines lines =
        new Lines(
            List.of(new Line("line-1", List.of(note), Optional.empty(), Optional.empty(), 1)),
            List.of(new Lines.Takeover("bass", "line-1", 2, 4, 0.8)));
    assertThat(told(written(fourBars(), Voices.NONE, lines))).containsExactly("layer-follows 2-3");
  }

  @Test
  void silenceTellsNothing() {
    assertThat(told(written(fourBars(), Voices.NONE, Lines.NONE))).isEmpty();
  }
}
