package undersong.bench.metrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.bench.metrics.RoomMetrics.Change;
import undersong.bench.metrics.RoomMetrics.Room;

/** Decay by its definition in ISO 3382-1 (from memory); scores worked by hand. */
class RoomMetricsTest {
  private static Room room(double start, double end, double decay, double wet) {
    return new Room(start, end, List.of(0.0, decay, decay), wet);
  }

  /** Energy that falls by 60 dB in T is 10^(-6 t / T). */
  @ParameterizedTest
  @ValueSource(doubles = {0.3, 1, 2.5})
  void anExponentialFallTakesItsOwnTime(double seconds) {
    double[] energy = new double[(int) (1.2 * seconds * 8000)];
    for (int i = 0; i < energy.length; i++) {
      energy[i] = Math.pow(10, -6 * i / 8000.0 / seconds);
    }

    assertThat(DecayTime.seconds(energy, 8000)).isCloseTo(seconds, within(0.005 * seconds));
  }

  @Test
  void silenceAndWhatDoesNotFallHaveNoDecay() {
    double[] steady = {1, 1, 1, 1};

    assertThat(DecayTime.seconds(new double[100], 8000)).isNaN();
    assertThat(DecayTime.seconds(steady, 8000)).isNaN();
  }

  @Test
  void everySectionIsHeldAgainstTheOneThatSharesMostOfIt() {
    List<Room> truth = List.of(room(0, 20, 1, -12), room(20, 40, 1, -30));
    List<Room> told = List.of(room(0, 18, 1.2, -10), room(18, 40, 0, -36));

    RoomMetrics.Score score = RoomMetrics.score(truth, told);

    assertThat(score.medianRatio()).isCloseTo(1.2, within(1e-9));
    assertThat(score.within()).isEqualTo(1);
    assertThat(score.told()).isEqualTo(1); // the dry section is not asked
    assertThat(score.wetErrorDb()).isCloseTo((2 + 3) / 2.0, within(1e-9)); // -36 counts as -33
  }

  @Test
  void changesAreFoundInTheirDirection() {
    List<Change> changes =
        RoomMetrics.changes(
            List.of(room(0, 10, 1, -20), room(10, 20, 1, -17), room(20, 30, 1, -9)));

    assertThat(changes).containsExactly(new Change(20, 8));
    assertThat(RoomMetrics.found(changes, List.of(new Change(22, 5))).f()).isEqualTo(1);
    assertThat(RoomMetrics.found(changes, List.of(new Change(22, -5))).f()).isZero();
    assertThat(RoomMetrics.found(changes, List.of(new Change(24, 5))).f()).isZero();
  }
}
