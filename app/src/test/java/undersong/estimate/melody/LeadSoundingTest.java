package undersong.estimate.melody;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.MadeUpHearing;
import undersong.time.FrameClock;

class LeadSoundingTest {
  private static final int TUNE = 72;

  /**
   * A tune on C5 with a rest from 5 to 7 s, in which something else of doubtful standing sounds.
   */
  private static boolean soundsInTheRest(int otherMidi, double otherHolds) {
    EarActivations ear =
        new MadeUpHearing(12)
            .set(EarHead.VOICING, 0, 0, 5, 0.95)
            .set(EarHead.VOICING, 0, 5, 7, 0.02)
            .set(EarHead.VOICING, 0, 5.5, 6.5, 0.5)
            .set(EarHead.VOICING, 0, 7, 12, 0.95)
            .set(EarHead.LEAD, binOf(TUNE), 0, 5.5, 0.9)
            .set(EarHead.LEAD, binOf(otherMidi), 5.5, 6.5, 0.9)
            .set(EarHead.LEAD, binOf(TUNE), 6.5, 12, 0.9)
            .set(EarHead.NOTE_SUSTAIN, otherMidi - 21, 5.5, 6.5, otherHolds)
            .activations();
    LeadPath path = LeadPath.find(ear.head(EarHead.LEAD), MelodySettings.DEFAULTS);
    boolean[] course = new LeadSounding(ear, path, 0).course(MelodySettings.DEFAULTS.voicingCost());
    FrameClock clock = ear.head(EarHead.LEAD).clock();
    assertThat(course[clock.frameAt(4)]).isTrue();
    assertThat(course[clock.frameAt(5.2)]).isFalse();
    assertThat(course[clock.frameAt(9)]).isTrue();
    return course[clock.frameAt(6)];
  }

  private static int binOf(int midi) {
    return 3 * (midi - 21) + 1;
  }

  /** A voice keeps to its register: common practice, no source. */
  @Test
  void doubtfulSoundIsTheTuneWhereTheTuneMovesAndNotFarBelow() {
    assertThat(soundsInTheRest(TUNE - 1, 0.9)).isTrue();
    assertThat(soundsInTheRest(TUNE - 24, 0.9)).isFalse();
  }

  @Test
  void aPitchThatNobodyHoldsIsNotTheTune() {
    assertThat(soundsInTheRest(TUNE - 1, 0)).isFalse();
  }
}
