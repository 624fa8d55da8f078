package undersong.estimate.dynamics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import undersong.estimate.form.BarwiseSound;
import undersong.reading.Corrections;
import undersong.reading.Dynamics;

class BarLoudnessTest {
  private static Dynamics of(BarwiseSound sound) {
    return new BarLoudness().estimate(sound.features(), sound.bars(), Corrections.NONE).value();
  }

  @Test
  void tellsLoudBarsFromQuietOnes() {
    Dynamics dynamics = of(new BarwiseSound().bar(60, 4, -30, 2).bar(60, 4, -12, 8));
    assertThat(dynamics.barLufs().get(0)).isCloseTo(-30, within(0.5));
    assertThat(dynamics.barLufs().get(1)).isCloseTo(-12, within(0.5));
  }

  @Test
  void countsOnsetsByBeat() {
    Dynamics dynamics = of(new BarwiseSound().bar(60, 4, -30, 2).bar(60, 4, -12, 8));
    assertThat(dynamics.onsetsPerBeat()).containsExactly(0.5, 2.0);
  }

  @Test
  void readsTheFloorInSilence() {
    assertThat(of(new BarwiseSound().bar(60, 4, -120, 0)).barLufs()).containsExactly(-120.0);
  }
}
