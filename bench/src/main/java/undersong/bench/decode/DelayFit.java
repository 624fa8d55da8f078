package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import undersong.bench.metrics.EchoMetrics;
import undersong.bench.metrics.EchoMetrics.Copy;
import undersong.bench.metrics.EchoMetrics.Kind;
import undersong.bench.render.Staging;
import undersong.estimate.echo.ExactLag;
import undersong.estimate.echo.HeardDelays;
import undersong.estimate.echo.HeardDelays.Settings;
import undersong.estimate.echo.HeardDelays.Stretch;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.time.Span;

/**
 * Fits when the ear's word for a delay is taken, one setting after the other on tuning songs: F
 * over clean and worn copies with delays, less what is told a minute where there are none. Prints
 * each step that gains, then what the song's copies say with the settings it ends with.
 */
public final class DelayFit {
  private static final int ROUNDS = 2;

  private final List<Song> songs = new ArrayList<>();

  private DelayFit() {}

  /**
   * @param exact known lags by bin of the ear, as far as they were asked for
   */
  private record Song(
      String id,
      FrameMatrix echo,
      ExactLag lags,
      List<Copy> delays,
      Map<Integer, Optional<Double>> exact) {
    boolean clean() {
      return !id.contains("worn");
    }
  }

  /** What is tried of each setting, in their order. */
  private static final Map<Integer, double[]> TRIED =
      new TreeMap<>(
          Map.ofEntries(
              Map.entry(0, new double[] {0.12, 0.16, 0.2, 0.25, 0.3, 0.4}),
              Map.entry(1, new double[] {2.2, 2.5, 2.8, 3, 3.2, 3.4, 3.6, 4}),
              Map.entry(2, new double[] {0.5, 1, 1.8, 2.5, 3.5}),
              Map.entry(3, new double[] {3, 4, 5, 7}),
              Map.entry(4, new double[] {3, 4, 5, 5.5, 6, 6.5, 7}),
              Map.entry(5, new double[] {2, 2.5, 3, 3.5, 4, 5, 6}),
              Map.entry(6, new double[] {0.5, 1, 1.5, 2, 3}),
              Map.entry(7, new double[] {0.1, 0.2, 0.5, 1}),
              Map.entry(8, new double[] {0.3, 0.4, 0.5, 0.7}),
              Map.entry(9, new double[] {0, 4, 6, 8, 10, 13}),
              Map.entry(10, new double[] {0, 0.02, 0.04, 0.06, 0.1})));

  private static Settings with(Settings s, int setting, double value) {
    double[] v = {
      s.weight(),
      s.offset(),
      s.against(),
      s.most(),
      s.enter(),
      s.enterLikeliest(),
      s.enterAgain(),
      s.leave(),
      s.leastShare(),
      s.leastSum(),
      s.leastStretch()
    };
    v[setting] = value;
    return new Settings(v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8], v[9], v[10]);
  }

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets
   */
  public static void main(String[] arguments) throws IOException {
    DelayFit fit = new DelayFit();
    TuningSong.eachOf(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        (set, truth, id, studied, features) ->
            fit.songs.add(
                new Song(
                    set + " " + id,
                    features.heard().orElseThrow().head(EarHead.ECHO),
                    new ExactLag(features.image().lowWave()),
                    delays(truth.staging()),
                    new HashMap<>())));
    Settings best = fit.fitted();
    for (Song song : fit.songs) {
      List<Copy> told = told(song, best);
      if (!song.delays.isEmpty() || !told.isEmpty()) {
        System.out.printf(
            "%s: F %.2f, true %s, told %s%n",
            song.id, f(song, told), lags(song.delays), lags(told));
      }
    }
  }

  private Settings fitted() {
    Settings best = Settings.DEFAULTS;
    double most = score(best);
    for (int round = 0; round < ROUNDS; round++) {
      for (Map.Entry<Integer, double[]> setting : TRIED.entrySet()) {
        for (double value : setting.getValue()) {
          Settings tried = with(best, setting.getKey(), value);
          if (tried.enterAgain() < tried.enter() && score(tried) > most + 1e-6) {
            best = tried;
            most = score(tried);
            System.out.printf("%.3f: %s%n", most, best);
          }
        }
      }
    }
    score(best, true);
    return best;
  }

  private double score(Settings settings) {
    return score(settings, false);
  }

  private double score(Settings settings, boolean printed) {
    double[] sums = new double[2];
    int[] counts = new int[2];
    double falselyTold = 0;
    double minutes = 0;
    for (Song song : songs) {
      List<Copy> told = told(song, settings);
      if (song.delays.isEmpty()) {
        falselyTold += told.size();
        minutes += song.echo.frames() / song.echo.clock().framesPerSecond() / 60;
      } else {
        sums[song.clean() ? 0 : 1] += f(song, told);
        counts[song.clean() ? 0 : 1]++;
      }
    }
    double clean = sums[0] / Math.max(1, counts[0]);
    double worn = sums[1] / Math.max(1, counts[1]);
    double aMinute = falselyTold / Math.max(1e-9, minutes);
    if (printed) {
      System.out.printf(
          "F clean %.3f (%d) worn %.3f (%d), told falsely a minute %.3f: %s%n",
          clean, counts[0], worn, counts[1], aMinute, settings);
    }
    return clean + worn - aMinute;
  }

  private static double f(Song song, List<Copy> told) {
    return song.delays.isEmpty() ? 0 : EchoMetrics.found(song.delays, told, Kind.DELAY).f();
  }

  private static List<Copy> told(Song song, Settings settings) {
    Map<Integer, List<Stretch>> byLag =
        HeardDelays.of(song.echo, settings).stream().collect(Collectors.groupingBy(Stretch::bin));
    List<Copy> told = new ArrayList<>();
    byLag.forEach(
        (bin, stretches) -> {
          List<Span> spans = stretches.stream().map(Stretch::span).toList();
          song.exact
              .computeIfAbsent(bin, b -> song.lags.seconds(stretches.get(0).lagSeconds(), spans))
              .ifPresent(lag -> spans.forEach(s -> told.add(copy(s, lag))));
        });
    return told;
  }

  private static Copy copy(Span span, double lagSeconds) {
    return new Copy(Kind.DELAY, span.startSeconds(), span.endSeconds(), lagSeconds);
  }

  private static List<Copy> delays(Staging staging) {
    return staging.echoes().stream()
        .map(
            e ->
                new Copy(
                    Kind.DELAY,
                    e.startSeconds(),
                    e.endSeconds() + e.repeats() * e.delaySeconds(),
                    e.delaySeconds()))
        .toList();
  }

  private static String lags(List<Copy> copies) {
    StringBuilder words = new StringBuilder();
    for (Copy c : copies) {
      words.append(" %.2f@%.0f-%.0f".formatted(c.lagSeconds(), c.startSeconds(), c.endSeconds()));
    }
    return words.toString();
  }
}
