package undersong.estimate.echo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.estimate.SoundingScene;
import undersong.feature.EarHead;
import undersong.feature.MadeUpHearing;
import undersong.feature.StereoPowers;
import undersong.reading.NoteEvent;
import undersong.time.BeatGrid;
import undersong.time.Span;

final class ReturnEvidenceTest {
  private static final BeatGrid GRID = BeatGrid.of(0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4);
  private static final List<NoteEvent> NOTE = List.of(new NoteEvent(new Span(1, 1.4), 69, 1));

  private static ReturnEvidence evidence(double secondGain) {
    SoundingScene scene = new SoundingScene(4).sound(1, 1.4, 69, 0, 0.2);
    scene.sound(2.5, 2.9, 69, 0, 0.2 * secondGain);
    MadeUpHearing hearing = new MadeUpHearing(4).set(EarHead.NOTE_SUSTAIN, 69 - 21, 1, 1.9, 0.8);
    return new ReturnEvidence(
        StereoPowers.of(scene.features().image()), Optional.of(hearing.activations()), GRID);
  }

  @Test
  void aLineThatKeepsItsPlaceInTheBeatReturnsAfterWholeBeats() {
    assertThat(evidence(1).offBeat(1, 1.5)).isCloseTo(0, within(1e-9));
    assertThat(evidence(1).offBeat(1, 1.7)).isCloseTo(0.4, within(1e-9));
    assertThat(evidence(1).offBeat(1, 1.8)).isCloseTo(0.4, within(1e-9));
  }

  /** Ten decibels are a factor of 3.16 in amplitude (definition of the decibel). */
  @Test
  void whatIsSungAgainSofterIsSoMuchLower() {
    assertThat(evidence(1).levelDb(NOTE, 1.5)).isCloseTo(0, within(0.5));
    assertThat(evidence(0.316).levelDb(NOTE, 1.5)).isCloseTo(-10, within(1.0));
  }

  @Test
  void aPitchThatIsHeldUntilItIsDueHasNotEnded() {
    assertThat(evidence(1).held(NOTE, 0.85)).isCloseTo(0.8, within(0.05));
    assertThat(evidence(1).held(NOTE, 1.5)).isCloseTo(0, within(1e-6));
  }
}
