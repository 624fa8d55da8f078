package undersong.estimate.echo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.estimate.echo.HeardDelays.Settings;
import undersong.estimate.echo.HeardDelays.Stretch;
import undersong.feature.EarHead;
import undersong.feature.MadeUpHearing;

/** What an ear says frame by frame is written down by hand; bin b is a lag of (b + 4) / 50 s. */
final class HeardDelaysTest {
  private static final int HALF_SECOND = 21;

  private static List<Stretch> heard(MadeUpHearing hearing) {
    return HeardDelays.of(hearing.activations().head(EarHead.ECHO), Settings.DEFAULTS);
  }

  @Test
  void whatNoMomentTellsForSureAddsUp() {
    List<Stretch> found = heard(new MadeUpHearing(30).set(EarHead.ECHO, HALF_SECOND, 10, 16, 0.25));

    assertThat(found).hasSize(1);
    assertThat(found.get(0).lagSeconds()).isCloseTo(0.5, within(1e-4));
    assertThat(found.get(0).span().startSeconds())
        .as("copies are heard a lag after the sound")
        .isCloseTo(9.5, within(0.11));
    assertThat(found.get(0).span().endSeconds()).isCloseTo(16, within(0.11));
  }

  @Test
  void oneMomentAloneIsNoDelay() {
    assertThat(heard(new MadeUpHearing(30).set(EarHead.ECHO, HALF_SECOND, 10, 10.1, 0.5)))
        .isEmpty();
    assertThat(heard(new MadeUpHearing(30))).isEmpty();
  }

  @Test
  void aLagHeardOnceIsTakenUpMoreReadily() {
    MadeUpHearing faint = new MadeUpHearing(30).set(EarHead.ECHO, HALF_SECOND, 20, 21.2, 0.1);
    assertThat(heard(faint)).isEmpty();
    assertThat(heard(faint.set(EarHead.ECHO, HALF_SECOND, 5, 10, 0.5))).hasSize(2);
  }

  @Test
  void whatIsSentIntoADelayForSectionsIsNotSentThereForASecondElsewhere() {
    MadeUpHearing hearing =
        new MadeUpHearing(60)
            .set(EarHead.ECHO, HALF_SECOND, 5, 25, 0.5)
            .set(EarHead.ECHO, HALF_SECOND, 40, 41, 0.2);

    assertThat(heard(hearing))
        .singleElement()
        .satisfies(s -> assertThat(s.span().endSeconds()).isCloseTo(25, within(0.11)));
  }

  @Test
  void twiceALagIsItsFurtherCopyAndNoDelayOfItsOwn() {
    MadeUpHearing hearing =
        new MadeUpHearing(30)
            .set(EarHead.ECHO, HALF_SECOND, 5, 12, 0.5)
            .set(EarHead.ECHO, 46, 20, 26, 0.3);

    assertThat(heard(hearing))
        .singleElement()
        .satisfies(s -> assertThat(s.lagSeconds()).isCloseTo(0.5, within(1e-4)));
  }
}
