package undersong.estimate.motif;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.estimate.SoundedFeatures;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Lines;
import undersong.reading.Melody;
import undersong.reading.Member;
import undersong.reading.Meter;
import undersong.reading.Motif;
import undersong.reading.Motif.Likeness;
import undersong.reading.Motifs;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.reading.TimeSignature;
import undersong.reading.Voices;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** What a sequence is, and how it may move: Open Music Theory, chapter on sequences. */
class CellMotifsTest {
  private static final int BARS = 8;

  private final List<NoteEvent> melody = new ArrayList<>();
  private final List<NoteEvent> bass = new ArrayList<>();
  private String[] chords = {
    "C:maj", "D:min", "E:min", "F:maj", "C:maj", "C:maj", "C:maj", "C:maj"
  };

  /** Notes in a bar, beats and pitches in turn. */
  private static void bar(List<NoteEvent> part, int bar, double... beatsAndPitches) {
    for (int i = 0; i < beatsAndPitches.length; i += 2) {
      double start = 2 * (bar - 1) + 0.5 * beatsAndPitches[i];
      part.add(new NoteEvent(new Span(start, start + 0.2), beatsAndPitches[i + 1], 0.9));
    }
  }

  private Motifs motifs() {
    double[] beats = new double[4 * BARS + 1];
    for (int i = 0; i < beats.length; i++) {
      beats[i] = 0.5 * i;
    }
    List<Bar> bars = new ArrayList<>();
    List<ChordSpan> spans = new ArrayList<>();
    for (int bar = 0; bar < BARS; bar++) {
      Span span = new Span(2 * bar, 2 * bar + 2);
      bars.add(new Bar(bar + 1, 4 * bar, 4, TimeSignature.FOUR_FOUR, span));
      spans.add(
          new ChordSpan(
              span,
              HarteSyntax.parse(chords[bar]),
              Member.SOUNDING,
              Member.SOUNDING,
              Member.ABSENT,
              0.9,
              List.of(),
              Optional.empty()));
    }
    Span whole = new Span(0, 2 * BARS);
    Reading reading =
        Reading.empty(2 * BARS)
            .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.of(beats), 2, 1, 0.9, List.of())))
            .with(Facet.METER, Derived.of(new Meter(bars, 0.9, List.of())))
            .with(
                Facet.FORM,
                Derived.of(new Form(List.of(new Section(whole, 1, BARS, "A", 1, 0, 0.9)))))
            .with(Facet.BASS, Derived.of(new Bass(bass)))
            .with(Facet.MELODY, Derived.of(new Melody(melody)))
            .with(Facet.CHORDS, Derived.of(new Chords(spans)))
            .with(
                Facet.KEYS,
                Derived.of(
                    new Keys(List.of(new KeyRegion(whole, Key.parse("C major"), 0.9, List.of())))))
            .with(Facet.VOICES, Derived.of(Voices.NONE))
            .with(Facet.LINES, Derived.of(Lines.NONE));
    return new CellMotifs(MotifSettings.DEFAULTS)
        .estimate(new SoundedFeatures(16, 0).features(), reading, Corrections.NONE)
        .value();
  }

  @Test
  void aFigureCarriedUpTheScaleWithTheChordsFollowsTheRoot() {
    bar(melody, 1, 0, 64, 0.5, 62, 1, 60, 2, 67);
    bar(melody, 2, 0, 65, 0.5, 64, 1, 62, 2, 69);
    Motif motif = motifs().motifs().get(0);
    assertThat(motif.part()).isEqualTo("melody");
    assertThat(motif.cell().stream().map(Motif.CellNote::semitones)).containsExactly(0, -2, -4, 3);
    assertThat(motif.occurrences()).hasSize(2);
    Motif.Occurrence copy = motif.occurrences().get(1);
    assertThat(copy.firstBar()).isEqualTo(2);
    assertThat(copy.scaleSteps()).contains(1);
    assertThat(copy.likeness()).isEqualTo(Likeness.SCALE_STEP);
    assertThat(motif.riff()).isFalse();
  }

  @Test
  void aFigureMovedAsFarAsTheRootFollowsIt() {
    chords = new String[] {"C:maj", "F:maj", "C:maj", "C:maj", "C:maj", "C:maj", "C:maj", "C:maj"};
    bar(melody, 1, 0, 64, 0.5, 62, 1, 60, 2, 67);
    bar(melody, 2, 0, 69, 0.5, 67, 1, 65, 2, 72);
    Motif.Occurrence copy = motifs().motifs().get(0).occurrences().get(1);
    assertThat(copy.likeness()).isEqualTo(Likeness.FOLLOWS_ROOT);
    assertThat(copy.transposedSemitones()).isEqualTo(5);
  }

  @Test
  void aFigureFittedToAnotherChordIsAdapted() {
    chords = new String[] {"C:maj", "F:min", "C:maj", "C:maj", "C:maj", "C:maj", "C:maj", "C:maj"};
    bar(melody, 1, 0, 64, 0.75, 62, 1, 64, 2, 67, 3, 72);
    bar(melody, 2, 0, 65, 0.75, 63, 1, 65, 2, 68, 3, 72);
    Motif.Occurrence copy = motifs().motifs().get(0).occurrences().get(1);
    assertThat(copy.likeness()).isIn(Likeness.ADAPTED, Likeness.SCALE_STEP);
    assertThat(copy.firstBar()).isEqualTo(2);
  }

  @Test
  void aBarThatGoesRoundIsARiff() {
    for (int bar = 1; bar <= 4; bar++) {
      bar(bass, bar, 0, 36, 1.5, 36, 2, 39, 3, 41);
    }
    Motif motif = motifs().motifs().get(0);
    assertThat(motif.part()).isEqualTo("bass");
    assertThat(motif.riff()).isTrue();
    assertThat(motif.occurrences()).hasSize(4);
    assertThat(motif.lengthBeats()).isLessThanOrEqualTo(4);
  }

  @Test
  void aChordBrokenInEvenNotesIsNoFigure() {
    for (int bar = 1; bar <= 4; bar++) {
      bar(melody, bar, 0, 60, 1, 64, 2, 67, 3, 64);
    }
    chords = new String[] {"C:maj", "C:maj", "C:maj", "C:maj", "C:maj", "C:maj", "C:maj", "C:maj"};
    assertThat(motifs().motifs()).isEmpty();
  }

  @Test
  void aRepeatedNoteIsNoFigure() {
    for (int bar = 1; bar <= 8; bar++) {
      bar(bass, bar, 0, 36, 0.5, 36, 1.5, 36, 2, 36, 3.5, 43);
    }
    assertThat(motifs().motifs()).isEmpty();
  }

  @Test
  void tellsRangeAndShapeOfEachSection() {
    bar(melody, 1, 0, 60, 0.5, 64, 1, 67, 1.5, 72, 2, 67, 2.5, 62);
    Motifs.PartRange range = motifs().ranges().get(0);
    assertThat(range.part()).isEqualTo("melody");
    assertThat(range.lowestMidi()).isEqualTo(60);
    assertThat(range.highestMidi()).isEqualTo(72);
    assertThat(range.contour()).isEqualTo(Motifs.Contour.ARCH);
  }

  @Test
  void silenceHoldsNoFigures() {
    assertThat(motifs()).isEqualTo(Motifs.NONE);
  }
}
