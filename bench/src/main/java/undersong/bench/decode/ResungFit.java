package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import undersong.bench.render.Staging;
import undersong.bench.render.Truth;
import undersong.estimate.HeardNotes;
import undersong.estimate.echo.PhraseReturn;
import undersong.estimate.echo.ResungFinder;
import undersong.feature.Features;
import undersong.feature.StereoPowers;
import undersong.reading.Facet;
import undersong.reading.Reading;

/**
 * Prints the weights of the evidence for a phrase that is performed again: logistic regression on
 * whatever of the lead returns in the songs of the tuning sets, held to be true where a second
 * performance lies at its lag.
 */
public final class ResungFit {
  private static final double SAME_LAG_SECONDS = 0.15;
  private static final int STEPS = 60_000;
  private static final double RATE = 0.5;
  private static final double SHRINK = 0;

  private ResungFit() {}

  private record Row(List<Double> evidence, boolean again) {}

  /**
   * @param arguments cache and soundfont, as the bench has them; the sets
   */
  public static void main(String[] arguments) throws IOException {
    List<Row> rows = new ArrayList<>();
    TuningSong.eachCopy(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        (set, truth, id, studied, features) ->
            rows.addAll(rows(truth, studied.stored().reading(), features)));
    double[] weights = fitted(rows);
    System.out.printf(
        Locale.ROOT,
        "%d candidates, %d true%n",
        rows.size(),
        rows.stream().filter(Row::again).count());
    for (int i = 0; i < weights.length; i++) {
      System.out.printf(Locale.ROOT, "%s %.2f%n", i == 0 ? "bias" : "weight " + i, weights[i]);
    }
  }

  private static List<Row> rows(Truth truth, Reading reading, Features features) {
    double bar =
        reading.get(Facet.METER).bars().stream()
            .mapToDouble(b -> b.span().lengthSeconds())
            .average()
            .orElse(2);
    List<Row> rows = new ArrayList<>();
    for (PhraseReturn candidate :
        new ResungFinder(
                StereoPowers.of(features.image()),
                features.heard(),
                bar,
                reading.get(Facet.BEATS).grid())
            .candidates(
                reading.get(Facet.MELODY).notes(), HeardNotes.of(features.heard().orElseThrow()))) {
      rows.add(
          new Row(
              candidate.evidence(),
              truth.staging().takes().stream().anyMatch(take -> isOf(take, candidate))));
    }
    return rows;
  }

  private static boolean isOf(Staging.Take take, PhraseReturn candidate) {
    return take.kind() == Staging.TakeKind.AGAIN
        && Math.abs(take.lagSeconds() - candidate.lagSeconds()) <= SAME_LAG_SECONDS
        && candidate.startSeconds() < take.endSeconds()
        && candidate.endSeconds() > take.startSeconds();
  }

  /** The bias and the weights, by gradient descent. */
  private static double[] fitted(List<Row> rows) {
    int count = rows.get(0).evidence.size();
    double[] weights = new double[count + 1];
    for (int step = 0; step < STEPS; step++) {
      double[] slope = new double[count + 1];
      for (Row row : rows) {
        double sum = weights[0];
        for (int i = 0; i < count; i++) {
          sum += weights[i + 1] * row.evidence.get(i);
        }
        double error = 1 / (1 + Math.exp(-sum)) - (row.again ? 1 : 0);
        slope[0] += error / rows.size();
        for (int i = 0; i < count; i++) {
          slope[i + 1] += error * row.evidence.get(i) / rows.size();
        }
      }
      weights[0] -= RATE * slope[0];
      for (int i = 1; i <= count; i++) {
        weights[i] -= RATE * (slope[i] + SHRINK * weights[i]);
      }
    }
    return weights;
  }
}
