package undersong.bench.metrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Calibration and techniques: worked by hand from the definitions of this bench. */
class OwnMetricsTest {
  @Test
  void findsHonestStatementsCalibrated() {
    List<Calibration.Stated> honest = new ArrayList<>();
    for (int i = 0; i < 100; i++) {
      honest.add(new Calibration.Stated(0.8, i % 5 == 0 ? 0 : 1, 1));
    }
    Calibration calibration = Calibration.of(honest);
    assertThat(calibration.expectedError()).isCloseTo(0, within(1e-9));
    assertThat(calibration.bins()).hasSize(1);
  }

  @Test
  void weighsOverconfidence() {
    List<Calibration.Stated> boasts =
        List.of(new Calibration.Stated(0.9, 0, 3), new Calibration.Stated(0.5, 0.5, 1));
    assertThat(Calibration.of(boasts).expectedError()).isCloseTo(0.9 * 0.75, within(1e-9));
    assertThat(Calibration.of(List.of()).expectedError()).isNaN();
  }

  /** Worked by hand: alone in its bin, a statement of about one half is off by one half always. */
  @Test
  void saysWhatHonestStatementsShowByChance() {
    List<Calibration.Stated> few = new ArrayList<>();
    List<Calibration.Stated> many = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      few.add(new Calibration.Stated(0.495 + i / 1000.0, i % 2, 1));
    }
    for (int i = 0; i < 10_000; i++) {
      many.add(new Calibration.Stated(0.3 + 0.4 * i / 10_000, i % 2, 1));
    }
    assertThat(Calibration.of(few).byChance()).isCloseTo(0.5, within(0.005));
    assertThat(Calibration.of(many).byChance()).isLessThan(0.02);
  }

  @Test
  void makesTenBinsOfEqualCount() {
    List<Calibration.Stated> rising = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      rising.add(new Calibration.Stated(i / 200.0, i % 2, 1));
    }
    assertThat(Calibration.of(rising).bins())
        .hasSize(10)
        .allSatisfy(bin -> assertThat(bin.weight()).isEqualTo(20));
  }

  @Test
  void matchesFindingsWithinOneBar() {
    List<Timed<String>> planted =
        List.of(new Timed<>(10, 12, "key-lift"), new Timed<>(20, 22, "pedal-point"));
    List<Timed<String>> found =
        List.of(
            new Timed<>(13.5, 15, "key-lift"),
            new Timed<>(30, 31, "pedal-point"),
            new Timed<>(20, 22, "riff"));
    Map<String, PrecisionRecall> scores = TechniqueMetrics.score(planted, found, 2);
    assertThat(scores.get("key-lift").f()).isEqualTo(1);
    assertThat(scores.get("pedal-point").f()).isZero();
    assertThat(scores.get("all")).isEqualTo(new PrecisionRecall(1.0 / 3, 0.5));
    assertThat(TechniqueMetrics.falseAlarmsPerMinute(found, 90)).isEqualTo(2);
  }
}
