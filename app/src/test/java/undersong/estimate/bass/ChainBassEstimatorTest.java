package undersong.estimate.bass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.estimate.SoundedFeatures;
import undersong.feature.Features;
import undersong.reading.Bass;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Tuning;
import undersong.time.Span;

class ChainBassEstimatorTest {
  private static final double DURATION_SECONDS = 8;

  /** E1, A1, E2 and G1 under held chords. */
  private static Features line() {
    return new SoundedFeatures(DURATION_SECONDS, 0)
        .sound(0.5, 2.5, 28, 64, 68, 71)
        .sound(2.5, 4.5, 33, 64, 69, 73)
        .sound(4.5, 6, 40, 64, 68, 71)
        .sound(6, 7.5, 31, 62, 67, 71)
        .features();
  }

  private static Derived<Bass> hear(Features features, Corrections corrections) {
    Reading earlier =
        Reading.empty(DURATION_SECONDS).with(Facet.TUNING, Derived.of(new Tuning(0, 1)));
    return new ChainBassEstimator().estimate(features, earlier, corrections);
  }

  private static Corrections said(Correction... corrections) {
    List<CorrectionEntry> entries = new java.util.ArrayList<>();
    for (Correction correction : corrections) {
      entries.add(new CorrectionEntry(entries.size() + 1, "a", Instant.EPOCH, correction));
    }
    return new Corrections(entries);
  }

  @Test
  void hearsPitchAndOnsetOfEachNote() {
    List<NoteEvent> notes = hear(line(), Corrections.NONE).value().notes();
    assertThat(notes).extracting(NoteEvent::midiPitch).containsExactly(28.0, 33.0, 40.0, 31.0);
    double[] onsets = {0.5, 2.5, 4.5, 6};
    for (int i = 0; i < onsets.length; i++) {
      assertThat(notes.get(i).span().startSeconds()).isCloseTo(onsets[i], within(0.08));
    }
  }

  @Test
  void hearsNoBassInSilence() {
    Features silence = new SoundedFeatures(DURATION_SECONDS, 0).features();
    assertThat(hear(silence, Corrections.NONE).value().notes()).isEmpty();
  }

  @Test
  void hearsNoBassBelowChordsAlone() {
    Features chords = new SoundedFeatures(DURATION_SECONDS, 0).sound(0, 8, 72, 76, 79).features();
    assertThat(hear(chords, Corrections.NONE).value().notes()).isEmpty();
  }

  @Test
  void letsWhatWasSaidStandExactly() {
    Span span = new Span(2.93, 3.41);
    Derived<Bass> bass = hear(line(), said(new Correction.BassNoteOver(span, 36)));
    assertThat(bass.value().noteAt(3).orElseThrow()).isEqualTo(new NoteEvent(span, 36, 1));
    assertThat(bass.value().noteAt(2.8).orElseThrow().midiPitch()).isEqualTo(33);
    assertThat(bass.value().noteAt(3.6).orElseThrow().midiPitch()).isEqualTo(33);
  }

  @Test
  void takesTheNewestOfTwoThatDisagree() {
    Span span = new Span(3, 4);
    Correction note = new Correction.BassNoteOver(span, 36);
    Correction none = new Correction.NoBassOver(span);
    assertThat(hear(line(), said(note, none)).value().noteAt(3.5)).isEmpty();
    assertThat(hear(line(), said(none, note)).value().noteAt(3.5).orElseThrow().midiPitch())
        .isEqualTo(36);
  }

  @Test
  void listsWhatLiesBeyondTheRecording() {
    Correction beyond = new Correction.BassNoteOver(new Span(90, 91), 36);
    assertThat(hear(line(), said(beyond)).unplaced()).containsExactly(beyond);
  }

  @Test
  void answersTheSameTwice() {
    assertThat(hear(line(), Corrections.NONE)).isEqualTo(hear(line(), Corrections.NONE));
  }
}
