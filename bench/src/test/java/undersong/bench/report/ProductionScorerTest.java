package undersong.bench.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import undersong.bench.metrics.RoomMetrics;
import undersong.bench.metrics.SpaceMetrics;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;
import undersong.bench.peers.Produced;
import undersong.bench.render.Staging;
import undersong.bench.render.Truth;

/** A small production, told wholly and not at all; worked by hand. */
class ProductionScorerTest {
  private static final SungNote LEFT = new SungNote(4, 5, 76);
  private static final SungNote RIGHT = new SungNote(6, 7, 76);
  private static final SungNote VOICE = new SungNote(10, 11, 64);
  private static final Staging STAGING =
      new Staging(
          List.of(
              new Staging.Placement("line", 4, 5, -0.7, -6),
              new Staging.Placement("line", 6, 7, 0.7, -6),
              new Staging.Placement("second", 10, 11, 0.3, -20)),
          List.of(new Staging.Echo("lead", 12, 13, 0.3, 3, -5, -5, 4000, false)),
          List.of(
              new Staging.Take(Staging.TakeKind.AGAIN, "lead", 20, 22, 2.1, 0.02, 20, 0.6),
              new Staging.Take(Staging.TakeKind.DOUBLE, "comping", 0, 40, 0.02, 0.01, 0, 0.75)),
          List.of(new Timed<>(8, 24, "drums"), new Timed<>(0, 40, "bass")),
          List.of(new Staging.Sweep("pad", 14, 16, 400, 9000)),
          List.of(new Staging.Ducking(16, 24, 8, 0.2)),
          List.of(new Timed<>(0, 40, -10.0)),
          List.of(new Staging.Line("line", List.of(LEFT, RIGHT))),
          List.of(new Staging.Addition(20, LEFT)),
          List.of(
              new Staging.Room(0, 20, List.of(0.0, 1.0, 1.2, 1.0, 0.6, 0.0), -16),
              new Staging.Room(20, 40, List.of(0.0, 1.0, 1.2, 1.0, 0.6, 0.0), -6)),
          List.of());

  private static Truth truth(Staging staging) {
    List<Double> beats = java.util.stream.IntStream.range(0, 80).mapToObj(i -> i * 0.5).toList();
    List<Double> downbeats =
        java.util.stream.IntStream.range(0, 20).mapToObj(i -> i * 2.0).toList();
    return new Truth(
        "test-2",
        40,
        0,
        "4/4",
        120,
        1,
        false,
        beats,
        downbeats,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        false,
        List.of(VOICE),
        List.of(new Timed<>(0, 20, "A"), new Timed<>(20, 40, "A")),
        staging,
        List.of());
  }

  private static Map<String, Double> score(Produced heard) {
    return score(STAGING, heard);
  }

  private static Map<String, Double> score(Staging staging, Produced heard) {
    Map<String, Double> scores = new LinkedHashMap<>();
    ProductionScorer.score(truth(staging), heard, scores);
    return scores;
  }

  private static SpaceMetrics.Placed placed(SungNote n, double placement) {
    double hertz = 440 * Math.pow(2, (n.midiPitch() - 69) / 12);
    return new SpaceMetrics.Placed(
        n.startSeconds(), n.endSeconds(), hertz * 0.97, hertz * 1.03, placement);
  }

  @Test
  void givesTheTruthFullMarks() {
    Map<String, Double> scores =
        score(
            new Produced(
                List.of(VOICE),
                List.of(LEFT, RIGHT),
                List.of(placed(LEFT, -0.7), placed(RIGHT, 0.7)),
                ProductionScorer.copiesDone(STAGING),
                List.of(new Timed<>(8, 24, "drums"), new Timed<>(0, 40, "bass")),
                List.of(LEFT),
                List.of(new Timed<>(0, 20, -10.0), new Timed<>(20, 40, -10.0)),
                List.of(new Timed<>(14, 16, "opens")),
                List.of(new Timed<>(16, 24, 8.0)),
                List.of(
                    new RoomMetrics.Room(0, 20, List.of(0.0, 1.0, 1.2, 1.0, 0.6, 0.0), -16),
                    new RoomMetrics.Room(20, 40, List.of(0.0, 1.0, 1.2, 1.0, 0.6, 0.0), -6)),
                List.of(new RoomMetrics.Change(20, 10))));
    assertThat(scores).hasSize(21);
    scores.forEach(
        (metric, score) -> {
          Targets.Target target = Targets.all().get(metric);
          assertThat(target).as("%s is on the page", metric).isNotNull();
          boolean none = target.lowerIsBetter() && !metric.equals("room.decayRatio");
          assertThat(score).as(metric).isEqualTo(none ? 0.0 : 1.0);
        });
  }

  @Test
  void takesANoteWhereWearHasMovedIt() {
    Staging worn =
        STAGING.withStands(
            List.of(
                new Staging.Stand("line", 4.001, 76, -0.5),
                new Staging.Stand("line", 4.001, 60, 0.9),
                new Staging.Stand("bass", 6, 76, 0.9)));
    Produced heard =
        new Produced(
            List.of(),
            List.of(),
            List.of(placed(LEFT, -0.6), placed(RIGHT, 0.4)),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of());
    // 0.1 against where the first was moved to, 0.3 against where the second stands
    assertThat(score(worn, heard).get("space.placementError")).isCloseTo(0.2, within(1e-9));
  }

  @Test
  void givesSilenceNothing() {
    Map<String, Double> scores =
        score(
            new Produced(
                List.of(), List.of(), List.of(), List.of(), List.of(), List.of(), List.of(),
                List.of(), List.of(), List.of(), List.of()));
    assertThat(scores)
        .containsEntry("room.changesF", 0.0)
        .containsEntry("room.decayTold", 0.0)
        .containsEntry("room.wetErrorDb", Double.NaN)
        .containsEntry("second.notesF", 0.0)
        .containsEntry("space.placementFound", 0.0)
        .containsEntry("space.alternatingF", 0.0)
        .containsEntry("echo.delayF", 0.0)
        .containsEntry("layers.entriesExitsF", 0.0)
        .containsEntry("texture.duckingF", 0.0)
        .containsEntry("repeats.newNotesF", 0.0);
  }

  @Test
  void countsFalseAlarmsWhereNothingWasDone() {
    Map<String, Double> scores = new LinkedHashMap<>();
    ProductionScorer.score(
        truth(Staging.NONE),
        new Produced(
            List.of(),
            List.of(LEFT, RIGHT),
            List.of(),
            ProductionScorer.copiesDone(STAGING),
            List.of(),
            List.of(),
            List.of(),
            List.of(new Timed<>(14, 16, "opens")),
            List.of(new Timed<>(16, 24, 8.0)),
            List.of(),
            List.of()),
        scores);
    assertThat(scores)
        .containsEntry("lines.falsePerMinute", 3.0)
        .containsEntry("echo.delayFalsePerMinute", 1.5)
        .containsEntry("texture.sweepFalsePerMinute", 1.5)
        .containsEntry("texture.duckingFalseShare", 0.2);
  }
}
