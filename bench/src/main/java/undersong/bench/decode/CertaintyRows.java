package undersong.bench.decode;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import undersong.bench.metrics.Calibration;
import undersong.bench.peers.Program;
import undersong.bench.render.Truth;
import undersong.bench.report.Statements;
import undersong.estimate.LearnedCertainty;
import undersong.estimate.form.BlockMatchForm;
import undersong.estimate.form.FormSettings;
import undersong.estimate.form.SectionCertainty;
import undersong.estimate.melody.LeadCertainty;
import undersong.feature.Features;
import undersong.reading.Facet;
import undersong.reading.Reading;

/**
 * Writes what {@code training/certainty.py} fits to: one row for each statement on a song that may
 * be learned from. First come the names of the evidence, facet by facet; in a row stand facet, set,
 * recording, how right it was (0 to 1) by the judgement of the bench, its weight, the probability
 * stated now, and the evidence.
 */
public final class CertaintyRows {
  private static final Map<String, List<String>> WITNESSES =
      Map.of("melody", LeadCertainty.EVIDENCE, "sections", SectionCertainty.EVIDENCE);

  private static final List<String> ONE_WITNESS = List.of("posterior");

  /** Facets whose decoder states a posterior that is made honest. */
  private static final Set<String> SCALED = Set.of("bass", "keys");

  private final PrintStream out;

  private CertaintyRows(PrintStream out) {
    this.out = out;
  }

  /**
   * @param arguments cache and soundfont, as the bench has them; file to write; the sets, of which
   *     "plant-tune" is the composed songs that {@code ./measure planted-tune} has rendered
   */
  public static void main(String[] arguments) throws IOException {
    Path cache = Path.of(arguments[0]);
    List<String> sets = List.of(arguments).subList(3, arguments.length);
    try (PrintStream out = new PrintStream(arguments[2], StandardCharsets.UTF_8)) {
      WITNESSES.forEach((facet, names) -> out.println("#" + facet + "," + String.join(",", names)));
      CertaintyRows rows = new CertaintyRows(out);
      TuningSong.Learner learner =
          (set, truth, id, studied, features) ->
              rows.write(set, truth, id, studied.stored().reading(), features);
      TuningSong.eachOf(cache, Path.of(arguments[1]), sets, learner);
    }
  }

  private void write(String set, Truth truth, String id, Reading reading, Features features) {
    Statements statements = new Statements();
    statements.add(truth, Program.of(reading));
    Map<String, List<double[]>> evidence = evidence(reading, features);
    statements
        .said()
        .forEach(
            (facet, said) -> {
              for (int i = 0; i < said.size(); i++) {
                double[] behind =
                    evidence.containsKey(facet)
                        ? evidence.get(facet).get(i)
                        : posterior(facet, said.get(i).probability());
                write(facet + "," + set + "," + id, said.get(i), behind);
              }
            });
  }

  private void write(String name, Calibration.Stated said, double[] evidence) {
    StringBuilder row = new StringBuilder(name);
    row.append(
        String.format(
            Locale.ROOT, ",%.4f,%.4f,%.6f", said.right(), said.weight(), said.probability()));
    for (double witness : evidence) {
      row.append(String.format(Locale.ROOT, ",%.5f", witness));
    }
    out.println(row);
  }

  private static double[] posterior(String facet, double stated) {
    return new double[] {
      SCALED.contains(facet)
          ? LearnedCertainty.of(facet, ONE_WITNESS).behind(stated)
          : LearnedCertainty.logOdds(stated)
    };
  }

  private static Map<String, List<double[]>> evidence(Reading reading, Features features) {
    LeadCertainty lead =
        new LeadCertainty(features.heard().orElseThrow(), reading.get(Facet.MELODY).notes());
    BlockMatchForm.Compared compared =
        new BlockMatchForm(FormSettings.DEFAULTS).compare(features, reading);
    return Map.of(
        "melody",
        IntStream.range(0, reading.get(Facet.MELODY).notes().size())
            .mapToObj(lead::evidence)
            .toList(),
        "sections",
        reading.get(Facet.FORM).sections().stream().map(compared::certaintyEvidence).toList());
  }
}
