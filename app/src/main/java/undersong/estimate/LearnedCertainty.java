package undersong.estimate;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * How sure a statement is: log-odds as a weighted sum of evidence, by a logistic regression that
 * {@code training/certainty.py} fits to the rows of {@code undersong.bench.decode.CertaintyRows},
 * and {@code training/repeats.py} to those of {@code RepeatRows}. Where the one witness is what a
 * decoder said before, this makes it honest (J. Platt, "Probabilistic outputs for support vector
 * machines", 1999).
 */
public final class LearnedCertainty {
  private static final List<String> TABLE_FILES =
      List.of("certainty.txt", "new-notes.txt", "line-notes.txt");
  private static final String BIAS = "bias";

  /** Log-odds are counted no farther out than those of one in a thousand. */
  private static final double FARTHEST = Math.log(999);

  private static final Map<String, Map<String, Double>> TABLES = read();

  private final double[] weights;
  private final double bias;

  private LearnedCertainty(double[] weights, double bias) {
    this.weights = weights;
    this.bias = bias;
  }

  /**
   * @param facet as the table names it
   * @param evidence names of all that is weighed, in the order in which it will be given
   */
  public static LearnedCertainty of(String facet, List<String> evidence) {
    Map<String, Double> table = TABLES.getOrDefault(facet, Map.of());
    if (table.size() != evidence.size() + 1 || !table.containsKey(BIAS)) {
      throw wrong(facet, evidence, table);
    }
    double[] weights = new double[evidence.size()];
    for (int i = 0; i < weights.length; i++) {
      Double weight = table.get(evidence.get(i));
      if (weight == null) {
        throw wrong(facet, evidence, table);
      }
      weights[i] = weight;
    }
    return new LearnedCertainty(weights, table.get(BIAS));
  }

  private static IllegalStateException wrong(
      String facet, List<String> evidence, Map<String, Double> table) {
    return new IllegalStateException(
        "%s hold %s for %s, but bias and %s are weighed. Maybe they were fitted to older rows."
            .formatted(TABLE_FILES, table.keySet(), facet, evidence));
  }

  /** Probability given the evidence. */
  public double of(double... evidence) {
    double sum = bias;
    for (int i = 0; i < weights.length; i++) {
      sum += weights[i] * evidence[i];
    }
    return 1 / (1 + Math.exp(-sum));
  }

  /** The evidence behind a statement that had but one witness. */
  public double behind(double stated) {
    return bounded((Math.log(stated / (1 - stated)) - bias) / weights[0]);
  }

  /**
   * Log-odds of a probability, not too far out; what rounding put beyond 0 or 1 counts as these.
   */
  public static double logOdds(double stated) {
    double probability = Math.max(0, Math.min(1, stated));
    return bounded(Math.log(probability / (1 - probability)));
  }

  private static double bounded(double logOdds) {
    return Math.max(-FARTHEST, Math.min(FARTHEST, logOdds));
  }

  private static Map<String, Map<String, Double>> read() {
    Map<String, Map<String, Double>> tables = new HashMap<>();
    for (String file : TABLE_FILES) {
      try (InputStream in = LearnedCertainty.class.getResourceAsStream(file);
          BufferedReader lines =
              new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
          if (!line.isBlank() && !line.startsWith("#")) {
            String[] words = line.split(" ");
            tables
                .computeIfAbsent(words[0], facet -> new HashMap<>())
                .put(words[1], Double.parseDouble(words[2]));
          }
        }
      } catch (IOException broken) {
        throw new UncheckedIOException(broken);
      }
    }
    return tables;
  }
}
