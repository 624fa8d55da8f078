package undersong.estimate.melody;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.estimate.form.BarwiseSound;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.MadeUpHearing;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.time.Span;

class HeardMelodyTest {
  private static final BarwiseSound FOUR_SECONDS =
      new BarwiseSound().bar(60, 4, -20, 4).bar(60, 4, -20, 4);

  /** A4 from 0.4 to 1.2 s, B4 to 2.0 s, silence, A4 struck twice from 2.4 to 3.6 s. */
  private static MadeUpHearing tune() {
    return new MadeUpHearing(4)
        .set(EarHead.VOICING, 0, 0.4, 2.0, 0.95)
        .set(EarHead.VOICING, 0, 2.4, 3.6, 0.95)
        .set(EarHead.LEAD, binOf(69), 0.4, 1.2, 0.9)
        .set(EarHead.LEAD, binOf(71), 1.2, 2.0, 0.9)
        .set(EarHead.LEAD, binOf(69), 2.4, 3.6, 0.9)
        .set(EarHead.NOTE_ONSET, 69 - 21, 3.0, 3.02, 0.9);
  }

  private static int binOf(int midi) {
    return 3 * (midi - 21) + 1;
  }

  private static Derived<Melody> melody(Features features, Correction... said) {
    List<CorrectionEntry> entries = new ArrayList<>();
    for (Correction correction : said) {
      entries.add(new CorrectionEntry(entries.size(), "listener", Instant.EPOCH, correction));
    }
    return new HeardMelody(MelodySettings.DEFAULTS)
        .estimate(features, FOUR_SECONDS.bars(), new Corrections(entries));
  }

  private static Features heard() {
    return FOUR_SECONDS.features().withHeard(tune().activations());
  }

  @Test
  void followsTheTuneAndCutsItIntoNotes() {
    List<NoteEvent> notes = melody(heard()).value().notes();
    assertThat(notes.stream().map(note -> Math.round(note.midiPitch())))
        .containsExactly(69L, 71L, 69L, 69L);
    assertThat(notes.get(1).span().startSeconds()).isCloseTo(1.2, within(0.05));
    assertThat(notes.get(3).span().startSeconds()).isCloseTo(3.0, within(0.05));
  }

  /** The same two notes, one begun by a stroke of its pitch, one by a stroke of another. */
  @Test
  void isSurerOfANoteWhoseBeginningIsHeard() {
    Features begun =
        FOUR_SECONDS
            .features()
            .withHeard(tune().set(EarHead.NOTE_ONSET, 69 - 21, 0.4, 0.42, 0.9).activations());
    double sure = melody(begun).value().notes().get(0).probability();
    double unsure = melody(heard()).value().notes().get(0).probability();
    assertThat(sure).isGreaterThan(unsure).isLessThan(1);
  }

  /** In a loud recording of one voice everything is heard with nothing left to doubt. */
  @Test
  void anEarThatIsQuiteSureStatesAProbability() {
    MadeUpHearing certain =
        tune()
            .set(EarHead.VOICING, 0, 0.4, 2.0, 1)
            .set(EarHead.LEAD, binOf(69), 0.4, 1.2, 1)
            .set(EarHead.NOTE_SUSTAIN, 69 - 21, 0.4, 1.2, 1)
            .set(EarHead.NOTE_ONSET, 69 - 21, 0.4, 0.42, 1);
    Features features = FOUR_SECONDS.features().withHeard(certain.activations());
    assertThat(melody(features).value().notes().get(0).probability()).isBetween(0.5, 1.0);
  }

  @Test
  void keepsTheCurveWithoutBreakingItAtNotes() {
    assertThat(melody(heard()).value().curve()).hasSize(2);
  }

  @Test
  void claimsNothingWithoutATrainedEar() {
    assertThat(melody(FOUR_SECONDS.features()).value()).isEqualTo(Melody.NONE);
  }

  @Test
  void hearsNoTuneInSilence() {
    Features silent = FOUR_SECONDS.features().withHeard(new MadeUpHearing(4).activations());
    assertThat(melody(silent).value()).isEqualTo(Melody.NONE);
  }

  @Test
  void theListenersNoteStands() {
    Correction said = new Correction.MelodyNoteOver(new Span(1.0, 1.5), 72);
    List<NoteEvent> notes = melody(heard(), said).value().notes();
    assertThat(notes).contains(new NoteEvent(new Span(1.0, 1.5), 72, 1));
    assertThat(notes.stream().filter(note -> note.span().overlaps(new Span(1.0, 1.5)))).hasSize(1);
  }

  @Test
  void theListenersSilenceStands() {
    Correction said = new Correction.NoMelodyOver(new Span(0, 2.1));
    assertThat(melody(heard(), said).value().notes()).hasSize(2);
  }

  @Test
  void keepsThePitchWhereItTakesTheTuneToRest() {
    Melody melody = melody(heardWithDoubtfulEnd()).value();
    assertThat(melody.unsure()).hasSize(1);
    assertThat(melody.unsure().get(0).startSeconds()).isCloseTo(3.6, within(0.05));
    assertThat(melody.unsure().get(0).midiPitches()).allSatisfy(p -> assertThat(p).isEqualTo(74));
    assertThat(melody.notes()).hasSize(4);
  }

  @Test
  void cutsNotesFromThatPitchWhereTheListenerSaysThatTheTuneSounds() {
    Melody melody =
        melody(heardWithDoubtfulEnd(), new Correction.MelodyOver(new Span(3.6, 4))).value();
    NoteEvent last = melody.notes().get(4);
    assertThat(last.midiPitch()).isCloseTo(74, within(0.01));
    assertThat(last.span().startSeconds()).isCloseTo(3.6, within(0.05));
    assertThat(last.probability()).isGreaterThan(0.8);
    assertThat(melody.notes().subList(0, 4))
        .isEqualTo(melody(heardWithDoubtfulEnd()).value().notes());
    assertThat(melody.unsure()).isEmpty();
    assertThat(melody.curve().get(1).endSeconds()).isCloseTo(4, within(0.05));
  }

  @Test
  void theTuneSoundsWhereARestWasSaidEarlier() {
    Correction rest = new Correction.NoMelodyOver(new Span(0, 2.1));
    Correction tune = new Correction.MelodyOver(new Span(1, 2.2));
    List<NoteEvent> heard = melody(heard()).value().notes();
    List<NoteEvent> notes = melody(heard(), rest, tune).value().notes();
    assertThat(notes).hasSize(4);
    assertThat(notes.get(0).span().startSeconds()).isEqualTo(1);
    assertThat(notes.get(1).span()).isEqualTo(heard.get(1).span());
    assertThat(melody(heard(), tune, rest).value().notes()).hasSize(2);
  }

  @Test
  void inventsNoPitchWhereTheEarHasNone() {
    Correction tune = new Correction.MelodyOver(new Span(0, 0.3));
    assertThat(melody(heard(), tune)).isEqualTo(melody(heard()));
  }

  /** The tune goes on to D5 at 3.6 s, by its pitch, but hardly sounds. */
  private static Features heardWithDoubtfulEnd() {
    return FOUR_SECONDS
        .features()
        .withHeard(
            tune()
                .set(EarHead.LEAD, binOf(74), 3.6, 4, 0.9)
                .set(EarHead.VOICING, 0, 3.6, 4, 0.01)
                .activations());
  }

  @Test
  void listsANoteAfterTheEnd() {
    Correction outside = new Correction.MelodyNoteOver(new Span(9, 10), 60);
    assertThat(melody(heard(), outside).unplaced()).containsExactly(outside);
  }
}
