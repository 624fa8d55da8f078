package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import undersong.bench.metrics.NoteMetrics;
import undersong.bench.metrics.SungNote;
import undersong.bench.render.Truth;
import undersong.estimate.bass.ChainBassEstimator;
import undersong.feature.Features;
import undersong.reading.Corrections;
import undersong.reading.Reading;

/**
 * Tries from which onset a held pitch of the bass counts as struck again, on tuning songs, and
 * prints the notes' F (onset and pitch): means over the clean and the worn copies. On the songs
 * looked at, so what other songs give is for the bench to say.
 */
public final class BassFit {
  private static final double[] ONSETS = {0.33, 0.42, 0.48, 0.54, 0.6, 0.66};

  private BassFit() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets
   */
  public static void main(String[] arguments) throws IOException {
    Map<Double, Map<String, List<Double>>> scores = new LinkedHashMap<>();
    TuningSong.eachCopy(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        (set, truth, id, studied, features) -> {
          String copy = set + (id.contains("clean") ? " clean" : " worn");
          Reading reading = studied.stored().reading();
          for (double onset : truth.bass().isEmpty() ? new double[0] : ONSETS) {
            scores
                .computeIfAbsent(onset, key -> new TreeMap<>())
                .computeIfAbsent(copy, key -> new ArrayList<>())
                .add(f(truth, features, reading, onset));
          }
        });
    scores.forEach(
        (onset, copies) ->
            copies.forEach(
                (copy, of) ->
                    System.out.printf(
                        "struck again from %.2f %-16s (%d) F %.3f%n",
                        onset,
                        copy,
                        of.size(),
                        of.stream().mapToDouble(f -> f).average().orElse(0))));
  }

  private static double f(Truth truth, Features features, Reading reading, double onset) {
    List<SungNote> heard =
        new ChainBassEstimator(onset)
            .estimate(features, reading, Corrections.NONE).value().notes().stream()
                .map(
                    n ->
                        new SungNote(n.span().startSeconds(), n.span().endSeconds(), n.midiPitch()))
                .toList();
    return NoteMetrics.score(truth.bass(), heard, NoteMetrics.Demand.ONSET_PITCH).f();
  }
}
