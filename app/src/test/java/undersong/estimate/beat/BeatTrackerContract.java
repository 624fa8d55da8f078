package undersong.estimate.beat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.feature.StrokeFeatures;
import undersong.reading.Beats;
import undersong.reading.Correction;
import undersong.reading.Correction.BeatAt;
import undersong.reading.Correction.TempoLevel;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Reading;
import undersong.time.BeatGrid;

/** What every beat tracker must do. Clicks and strokes are our own; the 70 ms are the field's. */
abstract class BeatTrackerContract {
  private static final double SECONDS = 40;

  abstract Estimator<Beats> tracker();

  @ParameterizedTest
  @ValueSource(doubles = {72, 92, 120, 140, 171})
  void tracksASteadyClick(double bpm) {
    double[] clicks = steady(bpm, SECONDS);
    Beats beats = track(strokes(clicks, SECONDS)).value();
    assertThat(agreement(clicks, beats.grid())).isGreaterThan(0.97);
    assertThat(beats.grid().medianBpm()).isCloseTo(bpm, within(0.01 * bpm));
  }

  @ParameterizedTest
  @ValueSource(doubles = {66, 84, 104, 126, 150})
  void tapsTheBackbeatAndNotItsHalves(double bpm) {
    double[] clicks = steady(bpm, SECONDS);
    Beats beats = track(backbeat(clicks, 0.5)).value();
    assertThat(agreement(clicks, beats.grid())).isGreaterThan(0.97);
    assertThat(beats.tatumsPerBeat()).isEqualTo(2);
    assertThat(beats.swingRatio()).isCloseTo(1, within(0.1));
  }

  @Test
  void followsADriftingTempo() {
    double[] clicks = new double[90];
    double seconds = 0.5;
    for (int i = 0; i < clicks.length; i++) {
      clicks[i] = seconds;
      seconds += 60 / (100 + 20 * Math.sin(2 * Math.PI * i / clicks.length));
    }
    Beats beats = track(backbeat(clicks, 0.5)).value();
    assertThat(agreement(clicks, beats.grid())).isGreaterThan(0.97);
  }

  @Test
  void hearsSwing() {
    Beats beats = track(backbeat(steady(116, SECONDS), 2.0 / 3)).value();
    assertThat(beats.swingRatio()).isCloseTo(2, within(0.3));
    assertThat(beats.grid().medianBpm()).isCloseTo(116, within(2.0));
  }

  @Test
  void coversABreak() {
    double[] clicks = steady(110, SECONDS);
    StrokeFeatures strokes = new StrokeFeatures(SECONDS);
    for (int i = 0; i < clicks.length; i++) {
      if (clicks[i] < 16 || clicks[i] > 22) {
        strokes.stroke(clicks[i], 1, 1, 1);
      }
    }
    BeatGrid grid = track(strokes.toFeatures()).value().grid();
    assertThat(agreement(clicks, grid)).isGreaterThan(0.97);
  }

  /**
   * The drums lean off the beat for eight bars, the band goes on counting; common practice, no
   * source.
   */
  @ParameterizedTest
  @ValueSource(doubles = {126, 150, 174})
  void keepsItsPhaseWhereThePlayersLeanOffTheBeat(double bpm) {
    double[] clicks = steady(bpm, 150 * 60 / bpm);
    StrokeFeatures strokes = new StrokeFeatures(clicks[clicks.length - 1] + 1);
    double half = 30 / bpm;
    for (int i = 0; i < clicks.length; i++) {
      boolean leans = i >= 56 && i < 88;
      boolean snare = i % 2 == 1;
      strokes.stroke(clicks[i], leans || snare ? 0.15 : 1, leans ? 0.2 : snare ? 0.9 : 0.3, 0.5);
      strokes.stroke(clicks[i] + half, leans ? 1 : 0, leans ? 0.9 : 0.1, leans ? 0.8 : 0.3);
    }
    Beats beats = track(strokes.toFeatures()).value();
    assertThat(agreement(clicks, beats.grid())).isGreaterThan(0.97);
  }

  @ParameterizedTest
  @ValueSource(doubles = {84, 110, 150})
  void comesInAnewAfterARest(double bpm) {
    double period = 60 / bpm;
    double[] clicks = new double[96];
    for (int i = 0; i < clicks.length; i++) {
      clicks[i] = 0.5 + period * (i < 48 ? i : i + 2.5);
    }
    StrokeFeatures strokes = new StrokeFeatures(clicks[95] + 1);
    for (int i = 0; i < clicks.length; i++) {
      boolean snare = i % 2 == 1;
      strokes.stroke(clicks[i], snare ? 0.1 : 1, snare ? 0.9 : 0.3, snare ? 0.7 : 0.5);
      if (i != 47) {
        strokes.stroke(clicks[i] + period / 2, i % 4 == 2 ? 0.8 : 0, 0.1, 0.4);
      }
    }
    double[] beats = track(strokes.toFeatures()).value().grid().toArray();
    for (double click : clicks) {
      double nearest = java.util.Arrays.stream(beats).map(b -> Math.abs(b - click)).min().orElse(1);
      assertThat(nearest).as("from %.2f s", click).isLessThan(0.2 * period);
    }
  }

  @Test
  void hearsNoPulseInSilence() {
    Derived<Beats> silent = track(new StrokeFeatures(20).toFeatures());
    assertThat(silent.value().grid()).isEqualTo(BeatGrid.NO_PULSE);
    assertThat(silent.unplaced()).isEmpty();
  }

  @Test
  void givesTheSameAnswerTwice() {
    Features features = backbeat(steady(97, SECONDS), 0.5);
    assertThat(track(features)).isEqualTo(track(features));
  }

  @Test
  void isStableUnderSmallDeviationsOfThePlayers() {
    Random random = new Random(5);
    double[] clicks = steady(104, SECONDS);
    double[] played = clicks.clone();
    for (int i = 0; i < played.length; i++) {
      played[i] += 0.01 * random.nextGaussian();
    }
    BeatGrid grid = track(backbeat(played, 0.5)).value().grid();
    assertThat(agreement(clicks, grid)).isGreaterThan(0.97);
  }

  @ParameterizedTest
  @ValueSource(doubles = {2, 0.5})
  void takesTheLevelThatIsSaid(double factor) {
    Features features = backbeat(steady(110, SECONDS), 0.5);
    double before = track(features).value().grid().medianBpm();
    Derived<Beats> after = track(features, new TempoLevel(factor));
    assertThat(after.value().grid().medianBpm()).isCloseTo(before * factor, within(2.0));
    assertThat(after.unplaced()).isEmpty();
    Beats back = track(features, new TempoLevel(factor), new TempoLevel(1 / factor)).value();
    assertThat(back.grid().medianBpm()).isCloseTo(before, within(1.0));
  }

  @Test
  void aSaidBeatStandsExactly() {
    Features features = backbeat(steady(110, SECONDS), 0.5);
    double said = 20.111;
    BeatGrid grid = track(features, new BeatAt(said)).value().grid();
    assertThat(grid.toArray()).contains(said);
    assertThat(smallestGap(grid)).isGreaterThan(0.2);
  }

  @Test
  void neighborsOfASaidBeatFollow() {
    double[] clicks = steady(110, SECONDS);
    StrokeFeatures strokes = new StrokeFeatures(SECONDS);
    for (double click : clicks) {
      strokes.stroke(click, 0.8, 0.8, 0.8).stroke(click + 30.0 / 110, 0.7, 0.8, 0.9);
    }
    Features features = strokes.toFeatures();
    BeatGrid before = track(features).value().grid();
    double said = before.secondsAtPosition(40.5);
    BeatGrid after = track(features, new BeatAt(said)).value().grid();
    double period = 60 / before.medianBpm();
    for (int i = -3; i <= 3; i++) {
      double expected = said + i * period;
      double nearest = after.secondsAt(after.nearestBeat(expected));
      assertThat(nearest).as("beat %d from the said one", i).isCloseTo(expected, within(0.05));
    }
  }

  @Test
  void theNewerOfTwoClashingBeatsStands() {
    Features features = backbeat(steady(110, SECONDS), 0.5);
    Derived<Beats> derived = track(features, new BeatAt(20.10), new BeatAt(20.13));
    assertThat(derived.value().grid().toArray()).contains(20.13).doesNotContain(20.10);
    assertThat(derived.unplaced()).containsExactly(new BeatAt(20.10));
  }

  @Test
  void handsBackWhatDoesNotFit() {
    Features features = backbeat(steady(110, SECONDS), 0.5);
    assertThat(track(features, new BeatAt(900)).unplaced()).containsExactly(new BeatAt(900));
    Features silent = new StrokeFeatures(20).toFeatures();
    assertThat(track(silent, new TempoLevel(2)).unplaced()).containsExactly(new TempoLevel(2));
  }

  private Derived<Beats> track(Features features, Correction... corrections) {
    List<CorrectionEntry> entries = new ArrayList<>();
    for (Correction correction : corrections) {
      entries.add(new CorrectionEntry(entries.size(), "listener", Instant.EPOCH, correction));
    }
    Reading reading = Reading.empty(features.durationSeconds());
    return tracker().estimate(features, reading, new Corrections(entries));
  }

  static double[] steady(double bpm, double seconds) {
    int beats = (int) ((seconds - 1) * bpm / 60);
    double[] clicks = new double[beats];
    for (int i = 0; i < beats; i++) {
      clicks[i] = 0.5 + i * 60 / bpm;
    }
    return clicks;
  }

  private static Features strokes(double[] clicks, double seconds) {
    StrokeFeatures strokes = new StrokeFeatures(seconds);
    for (double click : clicks) {
      strokes.stroke(click, 0.9, 1, 1);
    }
    return strokes.toFeatures();
  }

  /** Kick on one and three, snare on two and four, hi-hat on the beats and between them. */
  private static Features backbeat(double[] beats, double between) {
    StrokeFeatures strokes = new StrokeFeatures(beats[beats.length - 1] + 1);
    for (int i = 0; i < beats.length; i++) {
      boolean snare = i % 2 == 1;
      strokes.stroke(beats[i], snare ? 0.1 : 1, snare ? 0.9 : 0.3, snare ? 0.7 : 0.5);
      if (i + 1 < beats.length) {
        double eighth = beats[i] + between * (beats[i + 1] - beats[i]);
        strokes.stroke(eighth, i % 4 == 2 ? 0.8 : 0, 0.1, 0.4);
      }
    }
    return strokes.toFeatures();
  }

  /** F-measure of beats within 70 ms. */
  private static double agreement(double[] reference, BeatGrid estimated) {
    double[] beats = estimated.toArray();
    int hits = 0;
    int next = 0;
    for (double beat : reference) {
      while (next < beats.length && beats[next] < beat - 0.07) {
        next++;
      }
      if (next < beats.length && beats[next] <= beat + 0.07) {
        hits++;
        next++;
      }
    }
    return 2.0 * hits / (reference.length + beats.length);
  }

  private static double smallestGap(BeatGrid grid) {
    double gap = Double.POSITIVE_INFINITY;
    for (int i = 1; i < grid.size(); i++) {
      gap = Math.min(gap, grid.secondsAt(i) - grid.secondsAt(i - 1));
    }
    return gap;
  }
}
