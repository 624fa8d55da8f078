package undersong.estimate.voice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.estimate.SoundedFeatures;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.MadeUpHearing;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Tuning;
import undersong.reading.Voice;
import undersong.reading.VoiceKind;
import undersong.reading.Voices;
import undersong.time.Span;

class HeardVoicesTest {
  private static final int[] TUNE = {72, 74, 76, 74, 72, 71};

  private static Reading lead() {
    List<NoteEvent> notes = new ArrayList<>();
    for (int i = 0; i < TUNE.length; i++) {
      notes.add(new NoteEvent(new Span(0.5 * i + 0.5, 0.5 * i + 1), TUNE[i], 0.9));
    }
    return Reading.empty(5)
        .with(Facet.TUNING, Derived.of(new Tuning(0, 1)))
        .with(Facet.MELODY, Derived.of(new Melody(notes)));
  }

  private static void note(MadeUpHearing ear, int midi, double start, double end) {
    ear.set(EarHead.NOTE_ONSET, midi - 21, start, start + 0.03, 0.95)
        .set(EarHead.NOTE_SUSTAIN, midi - 21, start, end, 0.95);
  }

  /** The lead's notes and, below it, others that begin with them; {@code second}: sung along. */
  private static Features heard(int[] below, double second) {
    MadeUpHearing ear = new MadeUpHearing(5);
    for (int i = 0; i < TUNE.length; i++) {
      double start = 0.5 * i + 0.5;
      note(ear, TUNE[i], start, start + 0.48);
      if (below[i] > 0) {
        int midi = TUNE[i] - below[i];
        note(ear, midi, start, start + 0.48);
        ear.set(EarHead.SECOND, midi - 21, start, start + 0.5, Math.max(0.01, second));
      }
    }
    ear.set(EarHead.VOICING, 0, 0.5, 3.5, 0.95).set(EarHead.VOICING, 2, 0.5, 3.5, second);
    return new SoundedFeatures(5, 0).features().withHeard(ear.activations());
  }

  private static Derived<Voices> voices(Features features, Correction... said) {
    List<CorrectionEntry> entries = new ArrayList<>();
    for (Correction correction : said) {
      entries.add(new CorrectionEntry(entries.size(), "listener", Instant.EPOCH, correction));
    }
    return new HeardVoices(VoiceSettings.DEFAULTS, FreeSettings.DEFAULTS)
        .estimate(features, lead(), new Corrections(entries));
  }

  /** Thirds of C major below the tune: common practice, no source. */
  @Test
  void hearsAVoiceThatMovesInThirds() {
    Voices voices = voices(heard(new int[] {3, 3, 4, 3, 3, 4}, 0.8)).value();
    assertThat(voices.voices()).hasSize(1);
    Voice voice = voices.voices().get(0);
    assertThat(voice.name()).isEqualTo("voice-2");
    assertThat(voice.events().stream().map(NoteEvent::midiPitch))
        .containsExactly(69.0, 71.0, 72.0, 71.0, 69.0, 67.0);
    assertThat(voice.events().get(1).span().startSeconds()).isCloseTo(1.0, within(0.03));
    assertThat(voice.notes().get(2).semitonesAboveLead()).contains(-4);
    assertThat(voice.phrases()).hasSize(1);
    assertThat(voice.phrases().get(0).kind()).isEqualTo(VoiceKind.HARMONY);
    assertThat(voice.phrases().get(0).semitonesAboveLead()).contains(-3);
  }

  @Test
  void oneChordNoteThatBeginsWithTheLeadMakesNoVoice() {
    assertThat(voices(heard(new int[] {0, 0, 4, 0, 0, 0}, 0.05)).value()).isEqualTo(Voices.NONE);
  }

  @Test
  void hearsNoVoiceInSilenceOrWithoutATrainedEar() {
    Features silent =
        new SoundedFeatures(5, 0).features().withHeard(new MadeUpHearing(5).activations());
    assertThat(voices(silent).value()).isEqualTo(Voices.NONE);
    assertThat(voices(new SoundedFeatures(5, 0).features()).value()).isEqualTo(Voices.NONE);
  }

  @Test
  void theListenersNotesStandAndMayBeginAnotherVoice() {
    Correction.VoiceNoteOver over = new Correction.VoiceNoteOver("voice-2", new Span(1, 1.4), 65);
    Correction.VoiceNoteOver third = new Correction.VoiceNoteOver("voice-3", new Span(4, 4.5), 60);
    Voices voices = voices(heard(new int[] {3, 3, 4, 3, 3, 4}, 0.8), over, third).value();
    assertThat(voices.named("voice-2").orElseThrow().events())
        .contains(new NoteEvent(new Span(1, 1.4), 65, 1));
    Voice alone = voices.named("voice-3").orElseThrow();
    assertThat(alone.phrases().get(0).kind()).isEqualTo(VoiceKind.AD_LIB);
    assertThat(alone.notes().get(0).semitonesAboveLead()).isEqualTo(Optional.empty());
  }

  @Test
  void theListenersSilenceStandsAndALateWordIsUnplaced() {
    Correction none = new Correction.NoVoiceOver("voice-2", new Span(0, 5));
    Correction late = new Correction.NoVoiceOver("voice-2", new Span(9, 10));
    Derived<Voices> derived = voices(heard(new int[] {3, 3, 4, 3, 3, 4}, 0.8), none, late);
    assertThat(derived.value()).isEqualTo(Voices.NONE);
    assertThat(derived.unplaced()).containsExactly(late);
  }

  /** After the tune's last note somebody else sings five, which the ear takes for a voice's. */
  private static List<Voice> answered(double voice) {
    MadeUpHearing ear = new MadeUpHearing(5);
    for (int i = 0; i < TUNE.length; i++) {
      note(ear, TUNE[i], 0.5 * i + 0.5, 0.5 * i + 0.98);
    }
    int[] answer = {67, 69, 67, 65, 64};
    for (int i = 0; i < answer.length; i++) {
      double start = 3.55 + 0.28 * i;
      note(ear, answer[i], start, start + 0.26);
      int bin = answer[i] - 21;
      ear.set(EarHead.VOICE_ONSET, bin, start, start + 0.03, voice)
          .set(EarHead.VOICE_SUSTAIN, bin, start, start + 0.26, voice)
          .set(EarHead.ANY_ONSET, bin, start, start + 0.03, 0.9)
          .set(EarHead.LEAD, 3 * bin + 1, start, start + 0.26, 0.9)
          .set(EarHead.VOICING, 0, start, start + 0.28, 0.5);
    }
    ear.set(EarHead.VOICING, 0, 0.5, 3.5, 0.95);
    Features features = new SoundedFeatures(5, 0).features().withHeard(ear.activations());
    return new HeardVoices(VoiceSettings.DEFAULTS, FreeSettings.DEFAULTS)
        .estimate(features, lead(), Corrections.NONE)
        .value()
        .voices();
  }

  @Test
  void hearsWhoAnswersInTheRestsOfTheTune() {
    List<Voice> voices = answered(0.9);
    assertThat(voices).hasSize(1);
    assertThat(voices.get(0).events().stream().map(n -> Math.round(n.midiPitch())))
        .containsExactly(67L, 69L, 67L, 65L, 64L);
    assertThat(voices.get(0).phrases().get(0).kind()).isEqualTo(VoiceKind.AD_LIB);
  }

  @Test
  void anAccompanimentThatPlaysOnIsNoVoice() {
    assertThat(answered(0.01)).isEmpty();
  }
}
