package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import undersong.bench.metrics.LayerMetrics;
import undersong.bench.metrics.LayerMetrics.Counts;
import undersong.bench.metrics.Timed;
import undersong.bench.render.Truth;
import undersong.estimate.texture.PlayerLayers;
import undersong.estimate.texture.RestSettings;
import undersong.estimate.texture.RestSettings.Limit;
import undersong.feature.Features;
import undersong.reading.Facet;
import undersong.reading.Layer;
import undersong.reading.Reading;

/**
 * Fits when drums, bass and lead are told as resting, one after the other on tuning songs: the mean
 * over all copies of F of entries and exits, a copy in which nothing enters or leaves counting 1
 * where nothing is told and 0 otherwise. Of limits that are as good, the one in the middle is
 * taken: it stands furthest from a worse one. Then, by set and copy, what the bench would say
 * before and after.
 *
 * <p>The ear was trained on sounds of the tuning soundfont and hears these too well: the same songs
 * by other sounds say how far a limit holds. Each soundfont counts alike.
 */
public final class RestFit {
  private static final List<String> LAYERS = List.of("drums", "bass", "lead");
  private static final double[] SHARES = {
    0.08, 0.12, 0.16, 0.2, 0.25, 0.3, 0.36, 0.42, 0.5, 0.58, 0.68, 0.78, 0.88, 1
  };
  private static final double[] EVIDENCE = {0, 0.25, 0.5, 0.75, 1, 1.3, 1.7, 2.2, 3, 4};

  /** A limit stays unless another one gains more than this. */
  private static final double LEAST_GAIN = 0.001;

  private static final int ROUNDS = 2;
  private static final String FURTHER = "--";

  private final List<Copy> copies = new ArrayList<>();

  /**
   * @param sounds who plays it
   * @param counts by layer and limit
   */
  private record Copy(String sounds, String set, List<Map<Limit, Counts>> counts) {
    Counts with(List<Limit> limits) {
      Counts all = new Counts(0, 0, 0);
      for (int layer = 0; layer < limits.size(); layer++) {
        all = all.and(counts.get(layer).get(limits.get(layer)));
      }
      return all;
    }
  }

  private RestFit() {}

  private static List<Limit> tried(int layer) {
    List<Limit> tried = new ArrayList<>(List.of(standing().get(layer)));
    for (double share : SHARES) {
      for (double evidence : EVIDENCE) {
        tried.add(new Limit(share, evidence));
      }
    }
    return tried;
  }

  private static List<Limit> standing() {
    RestSettings now = RestSettings.DEFAULTS;
    return List.of(now.drums(), now.bass(), now.lead());
  }

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets; after {@value
   *     #FURTHER} the same for another soundfont, in a cache of its own
   */
  public static void main(String[] arguments) throws IOException {
    RestFit fit = new RestFit();
    List<String> rest = List.of(arguments);
    while (!rest.isEmpty()) {
      int end = rest.indexOf(FURTHER) < 0 ? rest.size() : rest.indexOf(FURTHER);
      fit.hear(Path.of(rest.get(0)), Path.of(rest.get(1)), rest.subList(2, end));
      rest = rest.subList(Math.min(rest.size(), end + 1), rest.size());
    }
    fit.print("as it stands", standing());
    fit.print("fitted", fit.fitted());
  }

  private void hear(Path cache, Path soundfont, List<String> sets) throws IOException {
    String sounds = soundfont.getFileName().toString();
    TuningSong.eachOf(
        cache,
        soundfont,
        sets,
        (set, truth, id, studied, features) -> {
          if (!truth.beats().isEmpty() && truth.downbeats().size() > 1) {
            String copy = set + (id.contains("worn") ? " worn" : " clean");
            add(sounds, copy, truth, features, studied.stored().reading());
          }
        });
  }

  private void add(String sounds, String copy, Truth truth, Features features, Reading reading) {
    PlayerLayers players = PlayerLayers.of(features, reading);
    List<Map<Limit, Counts>> counts = new ArrayList<>();
    for (int layer = 0; layer < LAYERS.size(); layer++) {
      counts.add(new LinkedHashMap<>());
      for (Limit limit : tried(layer)) {
        List<Timed<String>> told =
            told(layer, players, reading, limit).stream().map(RestFit::timed).toList();
        counts.get(layer).put(limit, counts(truth, told, LAYERS.get(layer)));
      }
    }
    copies.add(new Copy(sounds, copy, counts));
  }

  private static List<Layer> told(int layer, PlayerLayers players, Reading reading, Limit limit) {
    RestSettings limits = new RestSettings(limit, limit, limit);
    return switch (layer) {
      case 0 -> players.drums(limits);
      case 1 -> players.bass(reading.get(Facet.BASS).notes(), limits);
      default -> players.lead(reading.get(Facet.MELODY).notes(), limits);
    };
  }

  private static Counts counts(Truth truth, List<Timed<String>> told, String layer) {
    List<Double> beats = truth.beats();
    List<Double> downbeats = truth.downbeats();
    double bar = (downbeats.get(downbeats.size() - 1) - downbeats.get(0)) / (downbeats.size() - 1);
    return LayerMetrics.entriesAndExits(
        truth.staging().layers(),
        told,
        List.of(layer),
        bar,
        beats.get(0),
        beats.get(beats.size() - 1));
  }

  private static Timed<String> timed(Layer layer) {
    String name =
        switch (layer.kind()) {
          case KICK, SNARE, CYMBAL -> "drums";
          default -> layer.kind().name().toLowerCase(Locale.ROOT);
        };
    return new Timed<>(layer.span().startSeconds(), layer.span().endSeconds(), name);
  }

  private List<Limit> fitted() {
    List<Limit> best = new ArrayList<>(standing());
    for (int round = 0; round < ROUNDS; round++) {
      for (int layer = 0; layer < LAYERS.size(); layer++) {
        Limit before = best.get(layer);
        double most = Double.NEGATIVE_INFINITY;
        Map<Limit, Double> scores = new LinkedHashMap<>();
        for (Limit limit : tried(layer)) {
          best.set(layer, limit);
          double score = score(best);
          most = Math.max(most, score);
          scores.put(limit, score);
        }
        best.set(layer, before);
        if (most > score(best) + LEAST_GAIN) {
          double highest = most - 1e-9;
          best.set(
              layer,
              middle(
                  scores.keySet().stream().filter(limit -> scores.get(limit) >= highest).toList()));
        }
        System.out.printf("%s: at best %.4f, %s%n", LAYERS.get(layer), most, best.get(layer));
      }
    }
    return best;
  }

  /** That which differs least from the mean of all. */
  private static Limit middle(List<Limit> like) {
    double share = like.stream().mapToDouble(s -> s.share()).average().orElseThrow();
    double evidence = like.stream().mapToDouble(s -> s.leastEvidence()).average().orElseThrow();
    return like.stream()
        .min(
            Comparator.comparingDouble(
                s -> 4 * Math.abs(s.share() - share) + Math.abs(s.leastEvidence() - evidence)))
        .orElseThrow();
  }

  private double score(List<Limit> limits) {
    return copies.stream()
        .collect(
            Collectors.groupingBy(Copy::sounds, Collectors.averagingDouble(c -> score(c, limits))))
        .values()
        .stream()
        .mapToDouble(mean -> mean)
        .average()
        .orElse(0);
  }

  private static double score(Copy copy, List<Limit> limits) {
    Counts counts = copy.with(limits);
    return counts.references() + counts.estimates() == 0 ? 1 : f(counts);
  }

  private static double f(Counts counts) {
    return counts.score().f();
  }

  private void print(String title, List<Limit> limits) {
    System.out.printf("%s: %s, %.4f%n", title, limits, score(limits));
    Map<String, List<Copy>> bySet = new TreeMap<>();
    copies.forEach(
        copy ->
            bySet.computeIfAbsent(copy.sounds + " " + copy.set, k -> new ArrayList<>()).add(copy));
    bySet.forEach(
        (set, of) -> {
          double[] scores =
              of.stream().mapToDouble(c -> f(c.with(limits))).filter(f -> f >= 0).toArray();
          StringBuilder layers = new StringBuilder();
          for (int layer = 0; layer < LAYERS.size(); layer++) {
            Counts sum = new Counts(0, 0, 0);
            for (Copy copy : of) {
              sum = sum.and(copy.counts.get(layer).get(limits.get(layer)));
            }
            layers.append(
                " %s true %d told %d right %d;"
                    .formatted(
                        LAYERS.get(layer), sum.references(), sum.estimates(), sum.matches()));
          }
          System.out.printf(
              "  %s F %.3f (%d of %d copies)%s%n",
              set,
              java.util.Arrays.stream(scores).average().orElse(Double.NaN),
              scores.length,
              of.size(),
              layers);
        });
  }
}
