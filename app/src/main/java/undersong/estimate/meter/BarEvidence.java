package undersong.estimate.meter;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;

/**
 * How likely each beat begins a bar, if bars have so many beats: one logistic regression a length,
 * over {@link DownbeatTraits}, fitted on songs rendered for the purpose.
 */
final class BarEvidence {
  private static final Map<Integer, double[]> WEIGHTS = load();

  private BarEvidence() {}

  /**
   * @param traits as {@link DownbeatTraits#of} gives them
   * @param beatsInBar assumed
   * @return log-odds of a downbeat, one value a beat
   */
  static double[] logOdds(double[][] traits, int beatsInBar) {
    double[] weights = WEIGHTS.get(kin(beatsInBar));
    double[] logOdds = new double[traits.length];
    for (int beat = 0; beat < traits.length; beat++) {
      double sum = weights[DownbeatTraits.COUNT];
      for (int i = 0; i < DownbeatTraits.COUNT; i++) {
        sum += weights[i] * traits[beat][i];
      }
      logOdds[beat] = sum;
    }
    return logOdds;
  }

  /** The fitted length whose bars are built most like these. */
  private static int kin(int beatsInBar) {
    if (WEIGHTS.containsKey(beatsInBar)) {
      return beatsInBar;
    }
    return beatsInBar % 3 == 0 ? 3 : 4;
  }

  /** Lines of "beats in a bar: weights ... constant". */
  private static Map<Integer, double[]> load() {
    try (InputStream in = BarEvidence.class.getResourceAsStream("downbeat-weights.txt")) {
      Map<Integer, double[]> weights = new HashMap<>();
      String text = new String(in.readAllBytes(), StandardCharsets.US_ASCII);
      for (String line : text.lines().filter(l -> !l.isBlank() && !l.startsWith("#")).toList()) {
        String[] halves = line.split(":", -1);
        double[] row =
            java.util.Arrays.stream(halves[1].trim().split(" ", -1))
                .mapToDouble(Double::parseDouble)
                .toArray();
        if (row.length != DownbeatTraits.COUNT + 1) {
          throw new IllegalStateException(
              "downbeat-weights.txt holds %d numbers for bars of %s, there are %d traits and a constant."
                  .formatted(row.length, halves[0], DownbeatTraits.COUNT));
        }
        weights.put(Integer.parseInt(halves[0].trim()), row);
      }
      return weights;
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }
}
