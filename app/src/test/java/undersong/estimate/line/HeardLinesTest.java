package undersong.estimate.line;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.estimate.SoundedFeatures;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.MadeUpHearing;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.LineKind;
import undersong.reading.Lines;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.reading.Tuning;
import undersong.reading.Voices;
import undersong.time.BeatGrid;
import undersong.time.Span;

class HeardLinesTest {
  private static final int[] BROKEN = {60, 64, 67, 64};
  private static final double SECONDS = 16;

  private static Reading reading() {
    double[] beats = new double[33];
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i < beats.length; i++) {
      beats[i] = 0.5 * i;
      if (i % 4 == 0 && i < 32) {
        bars.add(new Bar(i / 4 + 1, i, 4, TimeSignature.FOUR_FOUR, new Span(0.5 * i, 0.5 * i + 2)));
      }
    }
    return Reading.empty(SECONDS)
        .with(Facet.TUNING, Derived.of(new Tuning(0, 1)))
        .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.of(beats), 2, 1, 1, List.of())))
        .with(Facet.METER, Derived.of(new Meter(bars, 1, List.of())))
        .with(Facet.BASS, Derived.of(new Bass(List.of(new NoteEvent(new Span(0, 8), 36, 1)))))
        .with(Facet.MELODY, Derived.of(Melody.NONE))
        .with(Facet.VOICES, Derived.of(Voices.NONE));
  }

  private static MadeUpHearing note(MadeUpHearing ear, int midi, double start, double end) {
    return ear.set(EarHead.NOTE_ONSET, midi - 21, start, start + 0.03, 0.95)
        .set(EarHead.NOTE_SUSTAIN, midi - 21, start, end, 0.95);
  }

  /** A broken chord in eighths through four bars, long notes far above, and the bass. */
  private static Features heard() {
    MadeUpHearing ear = new MadeUpHearing((int) SECONDS);
    note(ear, 36, 0, 8);
    for (int i = 0; i < 32; i++) {
      note(ear, BROKEN[i % 4], 0.25 * i, 0.25 * i + 0.2);
    }
    for (int i = 0; i < 8; i++) {
      note(ear, 84 + i % 2, i + 0.12, i + 1.05);
    }
    return new SoundedFeatures(SECONDS, 0).features().withHeard(ear.activations());
  }

  private static Derived<Lines> lines(Features features, Correction... said) {
    List<CorrectionEntry> entries = new ArrayList<>();
    for (Correction correction : said) {
      entries.add(new CorrectionEntry(entries.size(), "listener", Instant.EPOCH, correction));
    }
    return new HeardLines(LineSettings.DEFAULTS)
        .estimate(features, reading(), new Corrections(entries));
  }

  @Test
  void tellsABrokenChordFromLongNotesAboveIt() {
    List<Line> lines = lines(heard()).value().lines();
    assertThat(lines).hasSize(2);
    assertThat(lines.get(0).notes()).hasSize(32);
    assertThat(lines.get(0).kind()).contains(LineKind.ARPEGGIO);
    assertThat(lines.get(0).notes().stream().limit(4).map(NoteEvent::midiPitch))
        .containsExactly(60.0, 64.0, 67.0, 64.0);
    assertThat(lines.get(1).notes()).hasSize(8);
    assertThat(lines.get(1).kind()).contains(LineKind.HELD);
  }

  /** Triads struck on every beat, and a broken chord above them that also begins with them. */
  @Test
  void tellsALineFromTheChordsThatAreStruckBelowIt() {
    MadeUpHearing ear = new MadeUpHearing((int) SECONDS);
    for (int i = 0; i < 32; i++) {
      note(ear, BROKEN[2 * i % 4] + 19, 0.5 * i, 0.5 * i + 0.45);
      note(ear, BROKEN[(2 * i + 1) % 4] + 19, 0.5 * i + 0.25, 0.5 * i + 0.45);
      for (int third = 0; third < 3; third++) {
        note(ear, 55 + 4 * third, 0.5 * i, 0.5 * i + 0.4);
      }
    }
    List<Line> lines =
        lines(new SoundedFeatures(SECONDS, 0).features().withHeard(ear.activations()))
            .value()
            .lines();
    assertThat(lines).hasSize(4);
    assertThat(lines.get(0).notes()).hasSize(64);
    assertThat(lines.get(0).kind()).contains(LineKind.ARPEGGIO);
    assertThat(lines.subList(1, 4))
        .allSatisfy(
            voice -> {
              assertThat(voice.kind()).contains(LineKind.CHORD_VOICE);
              assertThat(voice.highestMidi()).isLessThan(64);
            });
  }

  @Test
  void leavesOutWhatTheBassPlays() {
    assertThat(lines(heard()).value().lines())
        .allSatisfy(line -> assertThat(line.lowestMidi()).isGreaterThan(36));
  }

  @Test
  void hearsNoLineInSilenceOrWithoutATrainedEar() {
    Features silent =
        new SoundedFeatures(SECONDS, 0)
            .features()
            .withHeard(new MadeUpHearing((int) SECONDS).activations());
    assertThat(lines(silent).value()).isEqualTo(Lines.NONE);
    assertThat(lines(new SoundedFeatures(SECONDS, 0).features()).value()).isEqualTo(Lines.NONE);
  }

  @Test
  void theListenersWordStands() {
    Correction over = new Correction.LineNoteOver("line-1", new Span(1, 2), 55);
    Correction none = new Correction.NoLineOver("line-2", new Span(0, 16));
    Correction late = new Correction.NoLineOver("line-2", new Span(20, 21));
    Derived<Lines> derived = lines(heard(), over, none, late);
    assertThat(derived.value().named("line-2")).isEmpty();
    assertThat(
            derived.value().named("line-1").orElseThrow().notes().stream()
                .filter(n -> n.span().startSeconds() >= 1 && n.span().startSeconds() < 2))
        .containsExactly(new NoteEvent(new Span(1, 2), 55, 1));
    assertThat(derived.unplaced()).containsExactly(late);
  }

  @Test
  void tellsWhenALineTakesOverAnothersFigure() {
    MadeUpHearing ear = new MadeUpHearing((int) SECONDS);
    for (int i = 0; i < 64; i++) {
      note(ear, BROKEN[i % 4] + (i < 32 ? 0 : 24), 0.25 * i, 0.25 * i + 0.2);
    }
    Features features = new SoundedFeatures(SECONDS, 0).features().withHeard(ear.activations());
    assertThat(lines(features).value().takeovers())
        .singleElement()
        .satisfies(
            takeover -> {
              assertThat(takeover.atSeconds()).isEqualTo(8);
              assertThat(takeover.fromSeconds()).isEqualTo(6);
            });
  }
}
