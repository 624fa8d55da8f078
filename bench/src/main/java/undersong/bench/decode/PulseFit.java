package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import undersong.bench.metrics.BeatMetrics;
import undersong.estimate.beat.PulseEvidence;

/**
 * Says what the trained ear's word should weigh against the measured strokes where the rate of the
 * beat is chosen: log-likelihood of the right way of tapping, and songs tapped rightly, for a grid
 * of weights. On the songs looked at, so what other songs give is for the bench to say.
 */
public final class PulseFit {
  private static final double[] MATCH = {0, 4, 8, 12, 16, 20, 24};
  private static final double[] STROKES = {0.5, 0.75, 1};
  private static final double RIGHT_F = 0.8;
  private static final List<String> SETS = List.of("tune", "pulse-tune", "rock-tune");

  private PulseFit() {}

  /**
   * @param arguments cache and soundfont, as the bench has them
   */
  public static void main(String[] arguments) throws IOException {
    List<Case> cases = new ArrayList<>();
    for (TuningSong song : TuningSong.all(Path.of(arguments[0]), Path.of(arguments[1]), SETS)) {
      Case one = Case.of(song);
      if (one.right() < 0) {
        System.out.printf("%s %s: no way of tapping is right%n", song.set(), song.id());
      } else {
        cases.add(one);
      }
    }
    System.out.println(
        "strokes  match | likelihood and songs right: tune, pulse-tune, rock-tune, composed");
    for (double strokes : STROKES) {
      for (double match : MATCH) {
        report(cases, new Weights(strokes, match));
      }
    }
  }

  private record Weights(double strokes, double match) {
    double of(PulseEvidence pulse) {
      return strokes * pulse.strokes() + match * pulse.match();
    }
  }

  /**
   * A song's ways of tapping.
   *
   * @param right index of the one that is right; -1 if none is
   */
  private record Case(String set, List<PulseEvidence> pulses, int right) {
    static Case of(TuningSong song) {
      double[] truth = BeatMetrics.trim(song.beats().toArray());
      int right = -1;
      double most = RIGHT_F;
      for (int i = 0; i < song.pulses().size(); i++) {
        double[] tapped = BeatMetrics.trim(song.pulses().get(i).beats().toArray());
        double f = BeatMetrics.score(truth, tapped).f();
        if (f > most) {
          most = f;
          right = i;
        }
      }
      return new Case(song.set(), song.pulses(), right);
    }

    double logLikelihood(Weights weights) {
      double sum = 0;
      double top = pulses.stream().mapToDouble(weights::of).max().orElse(0);
      for (PulseEvidence pulse : pulses) {
        sum += Math.exp(weights.of(pulse) - top);
      }
      return weights.of(pulses.get(right)) - top - Math.log(sum);
    }

    boolean told(Weights weights) {
      double most = pulses.stream().mapToDouble(weights::of).max().orElseThrow();
      return weights.of(pulses.get(right)) == most;
    }
  }

  private static void report(List<Case> cases, Weights weights) {
    StringBuilder line = new StringBuilder();
    line.append(String.format(Locale.ROOT, "%7.2f %6.2f |", weights.strokes(), weights.match()));
    for (String set : List.of("tune", "pulse-tune", "rock-tune", "plant-tune")) {
      List<Case> of = cases.stream().filter(c -> c.set().equals(set)).toList();
      line.append(
          String.format(
              Locale.ROOT,
              " %7.3f %d of %d;",
              of.stream().mapToDouble(c -> c.logLikelihood(weights)).average().orElse(0),
              of.stream().filter(c -> c.told(weights)).count(),
              of.size()));
    }
    System.out.println(line);
  }
}
