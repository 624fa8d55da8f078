package undersong.bench.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;
import undersong.bench.peers.Heard;
import undersong.bench.render.Staging;
import undersong.bench.render.Truth;

class ScorerTest {
  private static final Truth TRUTH =
      new Truth(
          "test-1",
          20,
          0,
          "4/4",
          120,
          1,
          false,
          every(0.5, 40),
          every(2, 10),
          List.of(new Timed<>(0, 20, KeyLabel.minor(9))),
          List.of(
              new Timed<>(0, 8, "A:min"),
              new Timed<>(8, 15.75, "C:maj/3"),
              new Timed<>(15.75, 20, "A:5")),
          List.of(new Truth.ChordChange(8, 8), new Truth.ChordChange(15.75, 16)),
          List.of(new SungNote(0, 8, 33), new SungNote(8, 15, 40)),
          List.of(new SungNote(1, 2, 69)),
          curve(),
          false,
          List.of(),
          List.of(new Timed<>(0, 8, "A"), new Timed<>(8, 20, "B")),
          Staging.NONE,
          List.of());

  private static List<Double> every(double period, int count) {
    return java.util.stream.IntStream.range(0, count).mapToObj(i -> i * period).toList();
  }

  private static List<Double> curve() {
    return java.util.stream.IntStream.range(0, 2000)
        .mapToObj(i -> i >= 100 && i < 200 ? 440.0 : 0.0)
        .toList();
  }

  private static Heard perfect(int chordSemitones) {
    List<Timed<ChordCode>> chords =
        Scorer.chordTruth(TRUTH).stream()
            .map(
                c ->
                    new Timed<>(
                        c.startSeconds(), c.endSeconds(), c.value().transposed(chordSemitones)))
            .toList();
    return new Heard(
        Optional.of(new Heard.Pulse(TRUTH.beats(), Optional.of(120.0))),
        Optional.of(new Heard.Bars(TRUTH.downbeats(), "4/4")),
        Optional.of(0.0),
        Optional.of(new Heard.Tonality(TRUTH.keys(), chords)),
        Optional.of(new Heard.Lines(TRUTH.bass(), TRUTH.melody(), TRUTH.pitchCurve())),
        Optional.of(TRUTH.sections()),
        Optional.empty(),
        Optional.empty(),
        Heard.Sureness.NONE,
        Map.of());
  }

  @Test
  void givesTheTruthFullMarks() {
    Map<String, Double> scores = Scorer.score(TRUTH, perfect(0));
    Targets.all()
        .forEach(
            (metric, target) -> {
              if (scores.containsKey(metric)) {
                assertThat(scores.get(metric))
                    .as(metric)
                    .isEqualTo(target.lowerIsBetter() ? 0.0 : 1.0);
              }
            });
    assertThat(scores).hasSizeGreaterThan(30);
  }

  @Test
  void givesSilenceNothing() {
    Map<String, Double> scores =
        Scorer.score(
            TRUTH,
            Heard.NOTHING
                .withPulse(new Heard.Pulse(List.of(), Optional.empty()))
                .withTonality(new Heard.Tonality(List.of(), List.of()))
                .withSections(List.of()));
    assertThat(scores.get("beats.f")).isZero();
    assertThat(scores.get("key.weighted")).isZero();
    assertThat(scores.get("chords.majmin")).isZero();
    assertThat(scores.get("form.f3Trimmed")).isZero();
  }

  @Test
  void showsAPlantedFaultAsWorse() {
    Run sound = run(perfect(0));
    Run faulty = run(perfect(1));
    List<String> lines = Comparison.of(new Results(Map.of("test", sound)), "test", faulty);
    assertThat(lines).anyMatch(l -> l.startsWith("WORSE: chords, root (clean) 1.000 → 0.000"));
    assertThat(lines).noneMatch(l -> l.contains("beats"));
    assertThat(Comparison.of(new Results(Map.of("test", sound)), "test", sound))
        .singleElement()
        .asString()
        .startsWith("Nothing moved");
  }

  private static Run run(Heard heard) {
    Row row = new Row("test-1", "clean", "undersong", Map.of(), Scorer.score(TRUTH, heard));
    return new Run("", "", "", "", 0, List.of(row), Map.of(), Map.of(), Map.of(), List.of());
  }
}
