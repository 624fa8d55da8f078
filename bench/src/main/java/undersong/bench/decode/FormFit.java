package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import undersong.bench.metrics.FormMetrics;
import undersong.bench.metrics.PrecisionRecall;
import undersong.bench.metrics.Timed;
import undersong.estimate.form.BlockMatchForm;
import undersong.estimate.form.FormSettings;
import undersong.reading.Bar;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.Form;

/**
 * Fits the settings of the form estimator on the tuning songs by trying neighbors one after the
 * other. Prints figures before and after: on the songs fitted to, so what other songs give is for
 * the bench to say.
 */
public final class FormFit {
  private static final int ROUNDS = 3;

  /** Smaller gains of the figure are chance. */
  private static final double WORTH_A_STEP = 0.003;

  /** Another ear may need quite another weight beside the other witnesses. */
  private static final int[] WEIGHT_STEPS = {-3, -1, 1, 3};

  private static final double[] LIMITS = {0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4};

  private FormFit() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; then "songs" to print what was
   *     heard in each song beside what is true, "letters" to try limits of sameness, "fit" to fit
   */
  public static void main(String[] arguments) throws IOException {
    List<TuningSong> songs =
        TuningSong.all(Path.of(arguments[0]), Path.of(arguments[1]), List.of("tune", "pulse-tune"))
            .stream()
            .filter(s -> !s.sections().isEmpty())
            .toList();
    List<String> wanted = List.of(arguments).subList(2, arguments.length);
    report("as it stands", songs, FormSettings.DEFAULTS);
    if (wanted.contains("songs")) {
      songs.forEach(FormFit::print);
    }
    if (wanted.contains("letters")) {
      for (double limit : LIMITS) {
        report("same from " + limit, songs, FormSettings.DEFAULTS.withSamenessLimit(limit));
      }
    }
    if (wanted.contains("fit")) {
      FormSettings fitted = fit(songs, FormSettings.DEFAULTS);
      report("fitted to all", songs, fitted);
      System.out.println(fitted);
    }
  }

  /** One song's figures. */
  private record Score(String set, double f, double precision, double recall, double pairwise) {}

  private static FormSettings fit(List<TuningSong> songs, FormSettings start) {
    FormSettings best = start;
    double figure = figure(songs, best);
    for (int round = 0; round < ROUNDS; round++) {
      for (FormSettings tried : neighbors(best)) {
        double reached = figure(songs, tried);
        if (reached > figure + WORTH_A_STEP) {
          figure = reached;
          best = tried;
        }
      }
    }
    return best;
  }

  private static List<FormSettings> neighbors(FormSettings s) {
    List<FormSettings> tried = new ArrayList<>();
    for (int step : WEIGHT_STEPS) {
      for (int i = 0; i < s.boundaryWeights().size(); i++) {
        List<Double> weights = new ArrayList<>(s.boundaryWeights());
        // What begins or ends there may say nothing; it never speaks against a boundary.
        weights.set(i, Math.max(0, weights.get(i) + step));
        tried.add(s.withBoundaryWeights(weights));
      }
    }
    for (int step : new int[] {-1, 1}) {
      double repetition = Math.max(0, s.repetitionWeight() + 0.1 * step);
      tried.add(s.withCosts(s.lengthWeight() + 0.25 * step, s.repetitionWeight(), s.sectionCost()));
      tried.add(s.withCosts(s.lengthWeight(), repetition, s.sectionCost()));
      tried.add(s.withCosts(s.lengthWeight(), s.repetitionWeight(), s.sectionCost() + step));
    }
    return tried;
  }

  private static double figure(List<TuningSong> songs, FormSettings settings) {
    double tune = 0;
    double composed = 0;
    int of = 0;
    for (TuningSong song : songs) {
      double f = score(song, settings).f();
      tune += rendered(song) ? f : 0;
      composed += rendered(song) ? 0 : f;
      of += rendered(song) ? 1 : 0;
    }
    return tune / of + composed / Math.max(1, songs.size() - of);
  }

  /** Charts as they are played, not songs composed for findings. */
  private static boolean rendered(TuningSong song) {
    return song.set().endsWith("tune") && !song.set().startsWith("plant");
  }

  private static Form form(TuningSong song, FormSettings settings) {
    return BlockMatchForm.decide(song.compared(), settings, Corrections.NONE).value();
  }

  private static Score score(TuningSong song, FormSettings settings) {
    List<Timed<String>> heard = timed(form(song, settings));
    PrecisionRecall edges = FormMetrics.boundaries(song.sections(), heard, 0.5, true);
    return new Score(
        song.set(),
        zero(edges.f()),
        zero(edges.precision()),
        zero(edges.recall()),
        FormMetrics.pairwise(song.sections(), heard).f());
  }

  private static double zero(double value) {
    return Double.isFinite(value) ? value : 0;
  }

  private static void report(String what, List<TuningSong> songs, FormSettings settings) {
    System.out.println(what + ": " + words(songs.stream().map(s -> score(s, settings)).toList()));
  }

  private static String words(List<Score> scores) {
    StringBuilder out = new StringBuilder();
    for (String set : List.of("tune", "pulse-tune", "plant-tune")) {
      List<Score> of = scores.stream().filter(s -> s.set().equals(set)).toList();
      out.append(
          String.format(
              Locale.ROOT,
              "%s (%d) F %.3f, P %.3f, R %.3f, pairwise F %.3f; ",
              set,
              of.size(),
              of.stream().mapToDouble(Score::f).average().orElse(0),
              of.stream().mapToDouble(Score::precision).average().orElse(0),
              of.stream().mapToDouble(Score::recall).average().orElse(0),
              of.stream().mapToDouble(Score::pairwise).average().orElse(0)));
    }
    return out.toString();
  }

  private static List<Timed<String>> timed(Form form) {
    return form.sections().stream()
        .map(s -> new Timed<>(s.span().startSeconds(), s.span().endSeconds(), s.letter()))
        .toList();
  }

  private static void print(TuningSong song) {
    System.out.printf("%s %s%n", song.set(), song.id());
    System.out.println("  true  " + bars(song, song.sections()));
    System.out.println("  heard " + bars(song, timed(form(song, FormSettings.DEFAULTS))));
  }

  private static String bars(TuningSong song, List<Timed<String>> sections) {
    List<Bar> bars = song.reading().get(Facet.METER).bars();
    StringBuilder out = new StringBuilder();
    for (Timed<String> section : sections) {
      long before =
          bars.stream().filter(b -> b.span().startSeconds() < section.startSeconds() - 0.3).count();
      out.append(before).append(':').append(section.value()).append(' ');
    }
    return out.toString();
  }
}
