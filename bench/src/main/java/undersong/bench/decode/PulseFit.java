package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import undersong.bench.metrics.BeatMetrics;
import undersong.estimate.beat.PulseEvidence;

/**
 * Says what the trained ear's word should weigh against the measured strokes where the rate of the
 * beat is chosen, and against changes of harmony and starts of sections where beat is told from
 * off-beat: log-likelihood of the right way of tapping, and songs tapped rightly, for a grid of
 * weights. On the songs looked at, so what other songs give is for the bench to say.
 */
public final class PulseFit {
  private static final double[] MATCH = {0, 4, 8, 12, 16, 20, 24};
  private static final double[] STROKES = {0.5, 0.75, 1};
  private static final double[] BARS = {0, 8, 12, 16, 20, 24, 32, 48};
  private static final double[] PHASE_MATCH = {4, 8, 12, 20};
  private static final double[] HARMONY = {0, 8, 12, 16, 20, 24};
  private static final double[] SECTIONS = {0, 4, 8, 12, 16};
  private static final double RIGHT_F = 0.8;
  private static final List<String> SETS = List.of("tune", "pulse-tune", "rock-tune", "key-tune");
  private static final List<String> REPORTED =
      List.of("tune", "pulse-tune", "rock-tune", "key-tune", TuningSong.COMPOSED_SET);

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
    System.out.println("Rate of the beat. Likelihood and songs right: " + REPORTED);
    for (double strokes : STROKES) {
      for (double match : MATCH) {
        for (double bars : BARS) {
          RateWeights weights = new RateWeights(strokes, match, bars);
          System.out.printf(
              Locale.ROOT,
              "strokes %.2f match %2.0f bars %2.0f |%s%n",
              strokes,
              match,
              bars,
              figures(cases, c -> c.rateOdds(weights)));
        }
      }
    }
    System.out.println("Beat or off-beat.");
    for (double match : PHASE_MATCH) {
      for (double harmony : HARMONY) {
        for (double sections : SECTIONS) {
          System.out.printf(
              Locale.ROOT,
              "match %2.0f harmony %2.0f sections %2.0f |%s%n",
              match,
              harmony,
              sections,
              figures(cases, c -> c.phaseOdds(match, harmony, sections)));
        }
      }
    }
  }

  private record RateWeights(double strokes, double match, double bars) {
    double of(PulseEvidence pulse) {
      return strokes * pulse.strokes() + match * pulse.match() - bars * pulse.bars();
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

    /** Log-odds of the right rate, in either phase, against all others. */
    double rateOdds(RateWeights weights) {
      int rightRate = right - right % 2;
      double top = pulses.stream().mapToDouble(weights::of).max().orElse(0);
      double others = 0;
      for (int i = 0; i < pulses.size(); i += 2) {
        others += i == rightRate ? 0 : worth(weights, i, top);
      }
      return Math.log(worth(weights, rightRate, top)) - Math.log(others + 1e-300);
    }

    /** What speaks for a rate: a way of tapping and the one half way between its beats. */
    private double worth(RateWeights weights, int at, double top) {
      return Math.exp(weights.of(pulses.get(at)) - top)
          + Math.exp(weights.of(pulses.get(at + 1)) - top);
    }

    /** Log-odds of the right phase at the right rate. */
    double phaseOdds(double match, double harmony, double sections) {
      PulseEvidence on = pulses.get(right);
      PulseEvidence off = pulses.get(right % 2 == 0 ? right + 1 : right - 1);
      return on.strokes()
          - off.strokes()
          + match * (on.match() - off.match())
          + harmony * on.harmony()
          + sections * on.sections();
    }
  }

  private static String figures(List<Case> cases, ToDoubleFunction<Case> odds) {
    StringBuilder line = new StringBuilder();
    for (String set : REPORTED) {
      double[] of = cases.stream().filter(c -> c.set().equals(set)).mapToDouble(odds).toArray();
      line.append(
          String.format(
              Locale.ROOT,
              " %7.3f %d of %d;",
              Arrays.stream(of).map(z -> -Math.log1p(Math.exp(-z))).average().orElse(0),
              Arrays.stream(of).filter(z -> z > 0).count(),
              of.length));
    }
    return line.toString();
  }
}
