package undersong.estimate.meter;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.feature.Features;
import undersong.feature.StrokeFeatures;
import undersong.reading.Bar;
import undersong.reading.Beats;
import undersong.reading.Correction;
import undersong.reading.Correction.DownbeatAt;
import undersong.reading.Correction.MeterOver;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** Patterns are common practice (no source): kick on one, snare on two and four, and their kin. */
class BarChainMeterEstimatorTest {
  private static final double PERIOD = 0.5;
  private static final double START = 0.6;

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3})
  void hearsFourFourWhereverTheSongBegins(int pickUp) {
    Features features = rock(64 + pickUp, pickUp, false);
    Meter meter = estimate(features, beats(64 + pickUp, 2)).value();
    assertThat(meter.mainSignature()).isEqualTo(TimeSignature.FOUR_FOUR);
    assertThat(meter.bars().get(0).number()).isEqualTo(pickUp == 0 ? 1 : 0);
    assertThat(meter.bars().get(0).beats()).isEqualTo(pickUp == 0 ? 4 : pickUp);
    assertThat(meter.bars()).filteredOn(bar -> bar.number() > 0).allSatisfy(this::isWhole);
  }

  private void isWhole(Bar bar) {
    assertThat(bar.beats()).isEqualTo(4);
  }

  /** At 120 a minute, also where beats seem to divide in three: bars of 9/8 are not so quick. */
  @ParameterizedTest
  @ValueSource(ints = {2, 3})
  void hearsThreeFour(int tatums) {
    StrokeFeatures strokes = new StrokeFeatures(40);
    for (int beat = 0; beat < 66; beat++) {
      boolean one = beat % 3 == 0;
      strokes.stroke(at(beat), one ? 1 : 0, one ? 0.4 : 0.8, one ? 0.3 : 0.6);
    }
    Meter meter = estimate(strokes.toFeatures(), beats(66, tatums)).value();
    assertThat(meter.mainSignature()).isEqualTo(new TimeSignature(3, false));
    assertThat(meter.bars().get(0).number()).isEqualTo(1);
    assertThat(meter.bars()).hasSize(22);
  }

  @Test
  void hearsSixEight() {
    StrokeFeatures strokes = new StrokeFeatures(40);
    for (int beat = 0; beat < 60; beat++) {
      boolean one = beat % 2 == 0;
      strokes.stroke(at(beat), one ? 1 : 0.1, one ? 0.4 : 0.9, 0.6);
      strokes.stroke(at(beat + 1 / 3.0), 0, 0.2, 0.4);
      strokes.stroke(at(beat + 2 / 3.0), 0, 0.2, 0.4);
    }
    Meter meter = estimate(strokes.toFeatures(), beats(60, 3)).value();
    assertThat(meter.mainSignature().compound()).isTrue();
    assertThat(meter.bars().get(0).number()).isEqualTo(1);
    assertThat(downbeats(meter)).allSatisfy(beat -> assertThat(beat % 2).isZero());
  }

  @Test
  void hearsFiveFour() {
    StrokeFeatures strokes = new StrokeFeatures(50);
    for (int beat = 0; beat < 80; beat++) {
      int place = beat % 5;
      boolean kick = place == 0 || place == 3;
      boolean snare = place == 2 || place == 4;
      strokes.stroke(at(beat), kick ? 1 : 0, snare ? 0.9 : 0.3, snare ? 0.7 : 0.5);
      strokes.stroke(at(beat + 0.5), place == 1 ? 0.9 : 0, 0.1, 0.4);
    }
    Meter meter = estimate(strokes.toFeatures(), beats(80, 2)).value();
    assertThat(meter.mainSignature()).isEqualTo(new TimeSignature(5, false));
    assertThat(downbeats(meter)).allSatisfy(beat -> assertThat(beat % 5).isZero());
  }

  @Test
  void barsStayWhereAllChordsComeHalfABeatEarly() {
    Meter even = estimate(rock(96, 0, false), beats(96, 2)).value();
    Meter early = estimate(rock(96, 0, true), beats(96, 2)).value();
    assertThat(early.bars()).isEqualTo(even.bars());
  }

  @Test
  void barsStayThroughASectionWithoutDrums() {
    StrokeFeatures strokes = new StrokeFeatures(60);
    for (int beat = 0; beat < 96; beat++) {
      if (beat < 32 || beat >= 64) {
        strike(strokes, beat, beat % 4);
        strokes.stroke(at(beat), 0, 0, beat % 16 == 0 ? 1 : 0);
      } else {
        strokes.stroke(at(beat), 0, 0.5, 0.1);
      }
    }
    Meter meter = estimate(strokes.toFeatures(), beats(96, 2)).value();
    assertThat(downbeats(meter)).hasSize(24).allSatisfy(beat -> assertThat(beat % 4).isZero());
  }

  @Test
  void silenceHasNoBars() {
    Features features = new StrokeFeatures(20).toFeatures();
    Beats silent = new Beats(BeatGrid.NO_PULSE, 2, 1, 1, List.of());
    Derived<Meter> derived = estimate(features, silent, new DownbeatAt(3));
    assertThat(derived.value().bars()).isEmpty();
    assertThat(derived.unplaced()).containsExactly(new DownbeatAt(3));
  }

  @Test
  void aSaidDownbeatStandsAndTheOtherBarsFollow() {
    Features features = rock(64, 0, false);
    Meter meter = estimate(features, beats(64, 2), new DownbeatAt(at(30))).value();
    assertThat(downbeats(meter)).contains(26, 30, 34);
    assertThat(meter.probability()).isEqualTo(1);
  }

  @Test
  void aSaidMeterStandsOverItsSpan() {
    Features features = rock(64, 0, false);
    TimeSignature three = new TimeSignature(3, false);
    Span span = new Span(at(24), at(36));
    Derived<Meter> derived = estimate(features, beats(64, 2), new MeterOver(span, three));
    assertThat(derived.unplaced()).isEmpty();
    assertThat(downbeats(derived.value())).contains(24, 27, 30, 33, 36).doesNotContain(28, 32);
    assertThat(derived.value().barAt(at(28)).orElseThrow().signature()).isEqualTo(three);
    assertThat(derived.value().barAt(at(10)).orElseThrow().signature())
        .isEqualTo(TimeSignature.FOUR_FOUR);
  }

  @Test
  void theNewerWordWins() {
    Features features = rock(64, 0, false);
    TimeSignature three = new TimeSignature(3, false);
    MeterOver older = new MeterOver(new Span(at(0), at(63)), three);
    MeterOver newer = new MeterOver(new Span(at(0), at(63)), TimeSignature.FOUR_FOUR);
    Derived<Meter> derived = estimate(features, beats(64, 2), older, newer);
    assertThat(derived.value().mainSignature()).isEqualTo(TimeSignature.FOUR_FOUR);
    assertThat(derived.unplaced()).containsExactly(older);
  }

  @Test
  void givesTheSameAnswerTwice() {
    Features features = rock(64, 1, false);
    assertThat(estimate(features, beats(64, 2))).isEqualTo(estimate(features, beats(64, 2)));
  }

  private static List<Integer> downbeats(Meter meter) {
    return meter.bars().stream().filter(bar -> bar.number() > 0).map(Bar::firstBeat).toList();
  }

  /**
   * Four-beat drums after a pick-up, a crash cymbal every fourth bar.
   *
   * @param early whether chords, loud and each bar anew, come half a beat before the bar
   */
  private static Features rock(int beats, int pickUp, boolean early) {
    StrokeFeatures strokes = new StrokeFeatures(START + beats * PERIOD + 1);
    for (int beat = 0; beat < beats; beat++) {
      int place = Math.floorMod(beat - pickUp, 4);
      strike(strokes, beat, place);
      if ((beat - pickUp) % 16 == 0) {
        strokes.stroke(at(beat), 1, 0.7, 1);
      }
      if (place == 0 && beat > 0) {
        strokes.stroke(at(early ? beat - 0.5 : beat), 0.6, 0.9, 0.1);
      }
    }
    return strokes.toFeatures();
  }

  private static void strike(StrokeFeatures strokes, int beat, int place) {
    boolean kick = place % 2 == 0;
    strokes.stroke(at(beat), kick ? 1 : 0.1, kick ? 0.3 : 0.9, kick ? 0.5 : 0.7);
    strokes.stroke(at(beat + 0.5), place == 2 ? 0.9 : 0, 0.1, 0.4);
  }

  private static double at(double beat) {
    return START + beat * PERIOD;
  }

  private static Beats beats(int count, int tatums) {
    double[] seconds = IntStream.range(0, count).mapToDouble(i -> at(i)).toArray();
    return new Beats(BeatGrid.of(seconds), tatums, 1, 1, List.of());
  }

  private static Derived<Meter> estimate(
      Features features, Beats beats, Correction... corrections) {
    List<CorrectionEntry> entries = new ArrayList<>();
    for (Correction correction : corrections) {
      entries.add(new CorrectionEntry(entries.size(), "listener", Instant.EPOCH, correction));
    }
    Reading reading =
        Reading.empty(features.durationSeconds()).with(Facet.BEATS, Derived.of(beats));
    return new BarChainMeterEstimator().estimate(features, reading, new Corrections(entries));
  }
}
