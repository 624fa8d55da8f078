package undersong.estimate.chord;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.estimate.SoundedFeatures;
import undersong.feature.Features;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Presence;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.reading.TimeSignature;
import undersong.reading.Tuning;
import undersong.theory.ChordSymbol;
import undersong.theory.HarteSyntax;
import undersong.time.BeatGrid;
import undersong.time.Span;

class TatumChordRecognizerTest {
  private static final double DURATION_SECONDS = 17;
  private static final int BARS = 8;

  /** Eight bars of 4/4 at 120 bpm from 0.5 s, in eighths. */
  private static Reading reading(Form form, NoteEvent... bass) {
    double[] beats = new double[4 * BARS + 1];
    for (int i = 0; i < beats.length; i++) {
      beats[i] = 0.5 + 0.5 * i;
    }
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i < BARS; i++) {
      bars.add(
          new Bar(i + 1, 4 * i, 4, TimeSignature.FOUR_FOUR, new Span(0.5 + 2 * i, 2.5 + 2 * i)));
    }
    return Reading.empty(DURATION_SECONDS)
        .with(Facet.TUNING, Derived.of(new Tuning(0, 1)))
        .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.of(beats), 2, 1, 1, List.of())))
        .with(Facet.METER, Derived.of(new Meter(bars, 1, List.of())))
        .with(Facet.FORM, Derived.of(form))
        .with(Facet.BASS, Derived.of(new Bass(List.of(bass))))
        .with(Facet.MELODY, Derived.of(new Melody(List.of())));
  }

  private static Chords hear(Features features, Reading earlier, Correction... said) {
    return derive(features, earlier, said).value();
  }

  private static Derived<Chords> derive(Features features, Reading earlier, Correction... said) {
    List<CorrectionEntry> entries = new ArrayList<>();
    for (Correction correction : said) {
      entries.add(new CorrectionEntry(entries.size() + 1, "a", Instant.EPOCH, correction));
    }
    return new TatumChordRecognizer().estimate(features, earlier, new Corrections(entries));
  }

  private static final Form NO_FORM = new Form(List.of());

  private static String at(Chords chords, double seconds) {
    return HarteSyntax.print(chords.chordAt(seconds).orElseThrow().symbol());
  }

  private static NoteEvent bass(double start, double end, int pitch) {
    return new NoteEvent(new Span(start, end), pitch, 0.9);
  }

  /** C, A minor, F, G: two bars each, chord changes moved by {@code shiftSeconds}. */
  private static Features turnaround(double shiftSeconds) {
    double a = 4.5 + shiftSeconds;
    double b = 8.5 + shiftSeconds;
    double c = 12.5 + shiftSeconds;
    return new SoundedFeatures(DURATION_SECONDS, 0)
        .sound(0.5, a, 36, 60, 64, 67)
        .sound(a, b, 33, 60, 64, 69)
        .sound(b, c, 41, 60, 65, 69)
        .sound(c, 16.5, 43, 59, 62, 67)
        .features();
  }

  @Test
  void hearsTriadsFromTheFirstSoundToTheLast() {
    Chords chords = hear(turnaround(0), reading(NO_FORM));
    assertThat(chords.spans().get(0).symbol()).isEqualTo(ChordSymbol.NONE);
    assertThat(chords.spans().get(0).span().endSeconds()).isCloseTo(0.5, within(0.26));
    assertThat(List.of(at(chords, 2), at(chords, 6), at(chords, 10), at(chords, 14)))
        .containsExactly("C:maj", "A:min", "F:maj", "G:maj");
    assertThat(chords.spans().get(chords.spans().size() - 1).span().endSeconds())
        .isEqualTo(DURATION_SECONDS);
  }

  @ParameterizedTest
  @CsvSource({
    "C:7, '36 60 64 67 70'",
    "C:maj7, '36 60 64 67 71'",
    "C:min7, '36 60 63 67 70'",
    "B:dim, '35 59 62 65'",
    "C:aug, '36 60 64 68'",
    "C:sus4, '36 60 65 67'",
    "C:min, '36 55 60 63'",
  })
  void tellsQualitiesApart(String harte, String pitches) {
    int[] notes = java.util.Arrays.stream(pitches.split(" ")).mapToInt(Integer::parseInt).toArray();
    Features features = new SoundedFeatures(DURATION_SECONDS, 0).sound(0.5, 16.5, notes).features();
    assertThat(at(hear(features, reading(NO_FORM, bass(0.5, 16.5, notes[0]))), 8)).isEqualTo(harte);
  }

  /** No third, no quality: an open fifth and a bass alone claim neither major nor minor. */
  @Test
  void inventsNoThird() {
    Features features =
        new SoundedFeatures(DURATION_SECONDS, 0)
            .sound(0.5, 8.5, 38, 57, 62)
            .sound(8.5, 16.5, 38)
            .features();
    Chords chords = hear(features, reading(NO_FORM, bass(0.5, 16.5, 38)));
    assertThat(at(chords, 4)).isEqualTo("D:5");
    assertThat(at(chords, 12)).isEqualTo("D:1");
    ChordSpan open = chords.chordAt(4).orElseThrow();
    assertThat(open.third().sounds()).isFalse();
    assertThat(open.fifth().accompaniment()).isEqualTo(Presence.SOUNDING);
  }

  /** A wholly early section stays early: every change half a beat before its bar line. */
  @Test
  void keepsTheRealArrivalOfEarlyChords() {
    Chords chords = hear(turnaround(-0.25), reading(NO_FORM));
    assertThat(chords.chordAt(6).orElseThrow().span().startSeconds()).isCloseTo(4.25, within(0.01));
    assertThat(chords.chordAt(10).orElseThrow().span().startSeconds())
        .isCloseTo(8.25, within(0.01));
    assertThat(chords.chordAt(14).orElseThrow().span().startSeconds())
        .isCloseTo(12.25, within(0.01));
  }

  @Test
  void hearsTheBassAsInversion() {
    Features features =
        new SoundedFeatures(DURATION_SECONDS, 0).sound(0.5, 16.5, 40, 60, 64, 67).features();
    assertThat(at(hear(features, reading(NO_FORM, bass(0.5, 16.5, 40))), 8)).isEqualTo("C:maj/3");
  }

  @Test
  void hearsNoChordInSilence() {
    Features silence = new SoundedFeatures(DURATION_SECONDS, 0).features();
    Chords chords = hear(silence, reading(NO_FORM));
    assertThat(chords.spans()).hasSize(1);
    assertThat(chords.spans().get(0).symbol()).isEqualTo(ChordSymbol.NONE);
  }

  @Test
  void goesOnWithoutAPulse() {
    Reading free =
        reading(NO_FORM)
            .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.NO_PULSE, 2, 1, 0, List.of())))
            .with(Facet.METER, Derived.of(new Meter(List.of(), 0, List.of())));
    Chords chords = hear(turnaround(0), free);
    assertThat(List.of(at(chords, 2), at(chords, 6), at(chords, 14)))
        .containsExactly("C:maj", "A:min", "G:maj");
  }

  @Test
  void letsWhatWasSaidStandExactlyAndLeavesNoSliver() {
    Span span = new Span(4.47, 6.1);
    ChordSymbol said = HarteSyntax.parse("E:7/3");
    Chords chords = hear(turnaround(0), reading(NO_FORM), new Correction.ChordOver(span, said));
    ChordSpan there = chords.chordAt(5).orElseThrow();
    assertThat(there.span()).isEqualTo(span);
    assertThat(there.symbol()).isEqualTo(said);
    assertThat(there.probability()).isEqualTo(1);
    assertThat(chords.spans()).allMatch(chord -> chord.span().lengthSeconds() >= 0.125);
    assertThat(at(chords, 8)).isEqualTo("A:min");
  }

  @Test
  void takesTheNewestOfTwoThatDisagree() {
    Span span = new Span(4.5, 8.5);
    Chords chords =
        hear(
            turnaround(0),
            reading(NO_FORM),
            new Correction.ChordOver(span, HarteSyntax.parse("D:min")),
            new Correction.ChordOver(span, HarteSyntax.parse("F:maj7")));
    assertThat(at(chords, 6)).isEqualTo("F:maj7");
  }

  @Test
  void takesTheThirdAwayWhereNoneIsSaidToSound() {
    Chords chords =
        hear(turnaround(0), reading(NO_FORM), new Correction.NoThirdOver(new Span(4.5, 8.5)));
    assertThat(at(chords, 6)).isEqualTo("A:5");
    assertThat(chords.chordAt(6).orElseThrow().third().sounds()).isFalse();
    assertThat(at(chords, 2)).isEqualTo("C:maj");
  }

  @Test
  void listsWhatLiesBeyondTheRecording() {
    Correction beyond = new Correction.ChordOver(new Span(100, 101), HarteSyntax.parse("C:maj"));
    assertThat(derive(turnaround(0), reading(NO_FORM), beyond).unplaced()).containsExactly(beyond);
  }

  /** The first verse leaves the third open, the second sings it out: the label stays open. */
  @Test
  void saysWhereAnOpenThirdIsSettled() {
    Features features =
        new SoundedFeatures(DURATION_SECONDS, 0)
            .sound(0.5, 8.5, 38, 57, 62)
            .sound(8.5, 16.5, 38, 57, 62, 65)
            .features();
    Form form =
        new Form(
            List.of(
                new Section(new Span(0.5, 8.5), 1, 4, "A", 1, 0, 1),
                new Section(new Span(8.5, 16.5), 5, 8, "A", 2, 0, 1)));
    Chords chords = hear(features, reading(form, bass(0.5, 16.5, 38)));
    ChordSpan first = chords.chordAt(4).orElseThrow();
    assertThat(HarteSyntax.print(first.symbol())).isEqualTo("D:5");
    assertThat(first.third().accompaniment()).isEqualTo(Presence.IMPLIED);
    assertThat(first.third().impliedBy()).contains("minor third").contains("0:08");
    assertThat(at(chords, 12)).isEqualTo("D:min");
  }

  @Test
  void answersTheSameTwice() {
    assertThat(hear(turnaround(0), reading(NO_FORM)))
        .isEqualTo(hear(turnaround(0), reading(NO_FORM)));
  }
}
