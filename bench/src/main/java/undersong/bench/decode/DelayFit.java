package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import undersong.bench.metrics.EchoMetrics;
import undersong.bench.metrics.EchoMetrics.Copy;
import undersong.bench.metrics.EchoMetrics.Kind;
import undersong.bench.render.Staging;
import undersong.estimate.HeardNotes;
import undersong.estimate.echo.DelayScan;
import undersong.estimate.echo.DelayTrack.Settings;
import undersong.reading.Facet;
import undersong.reading.Reading;

/**
 * Tries limits and costs of delays that are heard in the mix as a whole, one after the other, on
 * tuning songs, and prints F over the clean and the worn copies, true delays found and what is told
 * falsely. On the songs looked at, so what other songs give is for the bench to say.
 */
public final class DelayFit {
  private DelayFit() {}

  /** What one setting gives. */
  private static final class Tally {
    private final List<Double> clean = new ArrayList<>();
    private final List<Double> worn = new ArrayList<>();
    private int found;
    private int all;
    private int falselyTold;
  }

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets
   */
  public static void main(String[] arguments) throws IOException {
    Map<Settings, Tally> tallies = new LinkedHashMap<>();
    tried().forEach(settings -> tallies.put(settings, new Tally()));
    TuningSong.eachOf(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        (set, truth, id, studied, features) -> {
          Reading reading = studied.stored().reading();
          DelayScan scan = new DelayScan(features.image().lowWave());
          List<DelayScan.Heard> heard =
              scan.listen(
                  reading.get(Facet.MELODY).notes(),
                  features.heard().map(HeardNotes::of).orElse(List.of()),
                  reading.get(Facet.BEATS).grid(),
                  reading.get(Facet.METER).mainSignature());
          tallies.forEach(
              (settings, tally) ->
                  add(tally, truth.staging(), scan.found(heard, settings), id.contains("clean")));
        });
    tallies.forEach(
        (settings, tally) ->
            System.out.printf(
                "F clean %.3f worn %.3f, found %d of %d, false %d: %s%n",
                mean(tally.clean),
                mean(tally.worn),
                tally.found,
                tally.all,
                tally.falselyTold,
                settings));
  }

  private static List<Settings> tried() {
    Settings d = Settings.DEFAULTS;
    List<Settings> tried = new ArrayList<>(List.of(d));
    for (double factor : new double[] {0.8, 0.9, 1.1, 1.25}) {
      tried.add(with(d, 0, factor));
      tried.add(with(d, 1, factor));
      tried.add(with(d, 2, factor));
      tried.add(with(d, 3, factor));
      tried.add(with(d, 4, factor));
      tried.add(with(d, 5, factor));
      tried.add(with(d, 6, factor));
      tried.add(with(d, 7, factor));
    }
    return tried;
  }

  private static Settings with(Settings d, int which, double factor) {
    double[] v = {
      d.mix(),
      d.mixUsual(),
      d.lead(),
      d.gain(),
      d.gainWidth(),
      d.enter(),
      d.leastMix(),
      d.leastLead()
    };
    v[which] *= factor;
    return new Settings(v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7]);
  }

  private static void add(
      Tally tally, Staging staging, List<DelayScan.Found> found, boolean clean) {
    List<Copy> told =
        found.stream()
            .map(
                f ->
                    new Copy(
                        Kind.DELAY,
                        f.startSeconds(),
                        f.endSeconds() + f.lagSeconds(),
                        f.lagSeconds()))
            .toList();
    List<Copy> done =
        staging.echoes().stream()
            .map(
                e ->
                    new Copy(
                        Kind.DELAY,
                        e.startSeconds(),
                        e.endSeconds() + e.repeats() * e.delaySeconds(),
                        e.delaySeconds()))
            .toList();
    if (!done.isEmpty()) {
      (clean ? tally.clean : tally.worn).add(EchoMetrics.found(done, told, Kind.DELAY).f());
    }
    tally.all += done.size();
    tally.found +=
        (int) EchoMetrics.told(done, told).stream().filter(t -> t.told() == Kind.DELAY).count();
    tally.falselyTold +=
        (int) EchoMetrics.told(told, done).stream().filter(t -> t.told() != Kind.DELAY).count();
  }

  private static double mean(List<Double> values) {
    return values.stream().mapToDouble(v -> v).average().orElse(0);
  }
}
