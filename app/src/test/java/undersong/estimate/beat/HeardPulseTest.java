package undersong.estimate.beat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.MadeUpHearing;

/** Beat or off-beat, by what is heard. Rock drums off the beat are common practice, no source. */
class HeardPulseTest {
  private static final double SECONDS = 40;
  private static final double BPM = 150;
  private static final double PERIOD = 60 / BPM;
  private static final double FIRST = 1;

  @ParameterizedTest
  @ValueSource(ints = {2, 4, 8})
  void chordsThatChangeOnTheBeatOutweighDrumsOffIt(int beatsPerChord) {
    HeardPulse heard = HeardPulse.of(hearing(0.5, beatsPerChord, 0).activations(), frames());
    assertThat(heard.match(beats(0))).isLessThan(heard.match(beats(0.5)));
    assertThat(heard.speaksForPhase(new PulseHypothesis(1, false, beats(0)))).isPositive();
    assertThat(heard.speaksForPhase(new PulseHypothesis(1, false, beats(0.5)))).isNegative();
  }

  @Test
  void earlyChordsDoNotMoveTheBeatThatSectionsBeginOn() {
    MadeUpHearing hearing = hearing(0, 4, -0.5);
    PulseHypothesis on = new PulseHypothesis(1, false, beats(0));
    double without = HeardPulse.of(hearing.activations(), frames()).speaksForPhase(on);
    for (int bar = 4; bar < 20; bar += 4) {
      double start = FIRST + 4 * bar * PERIOD;
      hearing.set(EarHead.BOUNDARY, 0, start - 0.05, start + 0.05, 0.8);
    }
    double with = HeardPulse.of(hearing.activations(), frames()).speaksForPhase(on);
    assertThat(with - without).isGreaterThan(4);
  }

  @Test
  void oneChordThroughoutSaysNothing() {
    MadeUpHearing one = hearing(0, 4, 0);
    MadeUpHearing same = hearing(0, 1000, 0);
    PulseHypothesis on = new PulseHypothesis(1, false, beats(0));
    PulseHypothesis off = new PulseHypothesis(1, true, beats(0.5));
    EarActivations changing = one.activations();
    EarActivations still = same.activations();
    assertThat(HarmonyChanges.of(changing, frames()).favor(on)).isGreaterThan(0.8);
    assertThat(HarmonyChanges.of(changing, frames()).favor(off)).isLessThan(-0.8);
    assertThat(HarmonyChanges.of(still, frames()).favor(on)).isBetween(-0.05, 0.05);
  }

  /**
   * Three quick beats to the bar, of which the ear hears the first alone, as it does in waltzes.
   */
  @Test
  void whereEveryBeatBeginsABarTheBeatsAreQuicker() {
    MadeUpHearing hearing = new MadeUpHearing(SECONDS);
    double[] bars = beats(0);
    for (double bar : bars) {
      hearing.set(EarHead.BEAT, 0, bar / 50, bar / 50 + 0.02, 0.9);
      hearing.set(EarHead.BEAT, 1, bar / 50, bar / 50 + 0.02, 0.9);
    }
    double[] thirds = new double[3 * bars.length - 2];
    for (int i = 0; i < thirds.length; i++) {
      int bar = Math.min(i / 3, bars.length - 2);
      thirds[i] = bars[bar] + (i - 3 * bar) * (bars[bar + 1] - bars[bar]) / 3;
    }
    HeardPulse heard = HeardPulse.of(hearing.activations(), frames());
    assertThat(heard.bars(bars)).isEqualTo(0.9, within(0.01));
    assertThat(heard.bars(thirds)).isZero();
    assertThat(heard.speaksFor(thirds)).isGreaterThan(heard.speaksFor(bars));
  }

  /**
   * @param leaning part of a beat by which the beats that the ear hears are late
   * @param early part of a beat at which chords change
   */
  private static MadeUpHearing hearing(double leaning, int beatsPerChord, double early) {
    MadeUpHearing hearing = new MadeUpHearing(SECONDS);
    for (double beat : beats(leaning)) {
      hearing.set(EarHead.BEAT, 0, beat / 50, beat / 50 + 0.02, 0.5);
    }
    for (double beat : beats(0.5 - leaning)) {
      hearing.set(EarHead.BEAT, 0, beat / 50, beat / 50 + 0.02, 0.2);
    }
    int root = 0;
    for (double at = FIRST; at < SECONDS; at += beatsPerChord * PERIOD) {
      double start = at == FIRST ? 0 : at + early * PERIOD;
      double end = Math.min(SECONDS, at + (beatsPerChord + early) * PERIOD);
      hearing.set(EarHead.CHORD_ROOT, root, start, end, 1);
      root = (root + 5) % 12;
    }
    return hearing;
  }

  private static int frames() {
    return (int) (SECONDS * EarHead.FRAMES_PER_SECOND);
  }

  private static double[] beats(double late) {
    double[] beats = new double[(int) ((SECONDS - 2 * FIRST) / PERIOD)];
    for (int i = 0; i < beats.length; i++) {
      beats[i] = (FIRST + (i + late) * PERIOD) * EarHead.FRAMES_PER_SECOND;
    }
    return beats;
  }
}
