package undersong.bench.metrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;

/** Expected values are worked by hand from the definitions in the cited papers. */
class MelodyAndNoteMetricsTest {
  private static PitchCurve curve(double... hertz) {
    return new PitchCurve(
        java.util.stream.IntStream.range(0, hertz.length).mapToDouble(i -> 0.01 * i).toArray(),
        hertz);
  }

  private static double cents(double hertz, double cents) {
    return hertz * Math.pow(2, cents / 1200);
  }

  @Test
  void agreesFullyWithItself() {
    PitchCurve tune = curve(0, 220, 230, 0, 440);
    assertThat(MelodyMetrics.of(tune, tune)).isEqualTo(new MelodyMetrics(1, 0, 1, 1, 1));
  }

  @Test
  void givesNoPitchForSilence() {
    PitchCurve tune = curve(0, 220, 230, 0, 440);
    assertThat(MelodyMetrics.of(tune, curve(0, 0, 0, 0, 0)))
        .isEqualTo(new MelodyMetrics(0, 0, 0, 0, 0.4));
    assertThat(MelodyMetrics.of(tune, curve()).rawPitch()).isZero();
  }

  @Test
  void holdsTheToleranceStrictly() {
    PitchCurve tune = curve(220, 220, 220, 220);
    PitchCurve off = curve(cents(220, 49.9), cents(220, 50.1), 220, cents(220, -60));
    assertThat(MelodyMetrics.of(tune, off).rawPitch()).isEqualTo(0.5);
  }

  @Test
  void forgivesOctavesInChromaOnly() {
    MelodyMetrics score = MelodyMetrics.of(curve(220, 220), curve(110, 880));
    assertThat(score.rawPitch()).isZero();
    assertThat(score.rawChroma()).isEqualTo(1);
    assertThat(score.overall()).isZero();
  }

  @Test
  void takesAGuessedPitchWithoutVoicing() {
    MelodyMetrics score = MelodyMetrics.of(curve(220, 220), curve(-220, 220));
    assertThat(score.rawPitch()).isEqualTo(1);
    assertThat(score.voicingRecall()).isEqualTo(0.5);
    assertThat(score.overall()).isEqualTo(0.5);
  }

  @Test
  void countsFalseAlarmsWhereNobodyLeads() {
    assertThat(MelodyMetrics.of(curve(0, 0, 0, 220), curve(220, 0, 220, 220)).falseAlarms())
        .isCloseTo(2.0 / 3, within(1e-9));
  }

  @Test
  void matchesNotes() {
    List<SungNote> truth = List.of(new SungNote(1, 2, 60), new SungNote(2, 3, 62));
    List<SungNote> close = List.of(new SungNote(1.05, 2.2, 60.5), new SungNote(2.0501, 3.3, 62));
    assertThat(NoteMetrics.score(truth, truth, NoteMetrics.Demand.ONSET_PITCH_OFFSET).f())
        .isEqualTo(1);
    assertThat(NoteMetrics.score(truth, close, NoteMetrics.Demand.ONSET_PITCH_OFFSET).f())
        .isEqualTo(0.5);
    assertThat(NoteMetrics.score(truth, List.of(), NoteMetrics.Demand.ONSET).f()).isZero();
    List<SungNote> octave = List.of(new SungNote(1, 2, 72));
    assertThat(NoteMetrics.score(truth, octave, NoteMetrics.Demand.ONSET).recall()).isEqualTo(0.5);
    assertThat(NoteMetrics.score(truth, octave, NoteMetrics.Demand.ONSET_PITCH).f()).isZero();
  }

  @Test
  void allowsLongNotesAFifthOfTheirLength() {
    List<SungNote> truth = List.of(new SungNote(0, 10, 60));
    List<SungNote> shorter = List.of(new SungNote(0, 8, 60));
    assertThat(NoteMetrics.score(truth, shorter, NoteMetrics.Demand.ONSET_PITCH_OFFSET).f())
        .isEqualTo(1);
    assertThat(NoteMetrics.overlapRatio(truth, shorter, NoteMetrics.Demand.ONSET_PITCH_OFFSET))
        .isCloseTo(0.8, within(1e-9));
  }

  @Test
  void countsSeveralPitchesAtOnce() {
    List<double[]> truth = List.of(pitches(60, 64, 67), pitches(60), pitches());
    List<double[]> guess = List.of(pitches(60, 63, 67), pitches(72), pitches(50));
    MultiPitchMetrics exact = MultiPitchMetrics.of(truth, guess, false);
    assertThat(exact.score().precision()).isEqualTo(0.4);
    assertThat(exact.score().recall()).isEqualTo(0.5);
    assertThat(exact.accuracy()).isCloseTo(2.0 / 7, within(1e-9));
    assertThat(exact.substitution()).isEqualTo(0.5);
    assertThat(exact.falseAlarm()).isEqualTo(0.25);
    assertThat(exact.totalError()).isEqualTo(0.75);
    assertThat(MultiPitchMetrics.of(truth, guess, true).score().recall()).isEqualTo(0.75);
  }

  private static double[] pitches(double... midi) {
    return DoubleStream.of(midi).toArray();
  }
}
