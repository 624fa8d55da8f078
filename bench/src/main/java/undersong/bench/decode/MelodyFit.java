package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import undersong.bench.metrics.MelodyMetrics;
import undersong.bench.metrics.NoteMetrics;
import undersong.bench.metrics.SungNote;
import undersong.bench.peers.Program;
import undersong.bench.render.Truth;
import undersong.estimate.melody.HeardMelody;
import undersong.estimate.melody.MelodySettings;
import undersong.feature.Features;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.Reading;

/**
 * Tries settings of the melody's decoder on tuning songs and prints what each gives: means over the
 * clean and the worn copies. On the songs looked at, so what other songs give is for the bench to
 * say.
 */
public final class MelodyFit {
  private static final double[] VOICING_COSTS = {0.25, 0.5, 1, 2};
  private static final double[] LEAST_OWN = {0.5, 0, -0.5, -1, Double.NEGATIVE_INFINITY};
  private static final double[] RESTRIKES = {0.2, 0.3, 0.4, 0.5, 0.6, 0.7};
  private static final double[] NOTE_CHANGES = {2, 3, 5};
  private static final double[] SHORTEST_SECONDS = {0.06, 0.08, 0.1};

  private MelodyFit() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets
   */
  public static void main(String[] arguments) throws IOException {
    Map<String, MelodySettings> tried = tried(MelodySettings.DEFAULTS);
    Map<String, Map<String, List<Score>>> scores = new LinkedHashMap<>();
    tried.keySet().forEach(name -> scores.put(name, new TreeMap<>()));
    TuningSong.eachCopy(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        (set, truth, id, studied, features) -> {
          if (!truth.melody().isEmpty()) {
            String copy = set + (id.contains("clean") ? " clean" : " worn");
            tried.forEach(
                (name, settings) ->
                    scores
                        .get(name)
                        .computeIfAbsent(copy, key -> new ArrayList<>())
                        .add(Score.of(truth, studied.stored().reading(), features, settings)));
          }
        });
    scores.forEach((name, copies) -> copies.forEach((copy, of) -> print(name, copy, of)));
  }

  private static Map<String, MelodySettings> tried(MelodySettings s) {
    Map<String, MelodySettings> tried = new LinkedHashMap<>();
    tried.put("as it stands", s);
    for (double cost : VOICING_COSTS) {
      tried.put("voicing " + cost, s.withVoicing(cost));
    }
    for (double least : LEAST_OWN) {
      tried.put("least own " + least, s.withLeastOwn(least));
    }
    for (double restrike : RESTRIKES) {
      tried.put(
          "restrike " + restrike,
          s.withNotes(s.noteChangeCost(), restrike, s.shortestNoteSeconds()));
    }
    for (double change : NOTE_CHANGES) {
      tried.put(
          "change " + change,
          s.withNotes(change, s.restrikeProbability(), s.shortestNoteSeconds()));
    }
    for (double shortest : SHORTEST_SECONDS) {
      tried.put(
          "shortest " + shortest,
          s.withNotes(s.noteChangeCost(), s.restrikeProbability(), shortest));
    }
    return tried;
  }

  record Score(MelodyMetrics curve, double onsets, double whole) {
    static Score of(Truth truth, Reading reading, Features features, MelodySettings settings) {
      Melody melody =
          new HeardMelody(settings).estimate(features, reading, Corrections.NONE).value();
      double cents = reading.get(Facet.TUNING).cents();
      List<SungNote> notes =
          melody.notes().stream()
              .map(n -> new SungNote(n.span().startSeconds(), n.span().endSeconds(), n.midiPitch()))
              .toList();
      return new Score(
          MelodyMetrics.of(
              truth.pitchCurve(), Program.curve(melody, cents, reading.durationSeconds())),
          NoteMetrics.score(truth.melody(), notes, NoteMetrics.Demand.ONSET_PITCH).f(),
          NoteMetrics.score(truth.melody(), notes, NoteMetrics.Demand.ONSET_PITCH_OFFSET).f());
    }
  }

  static void print(String name, String copy, List<Score> of) {
    System.out.printf(
        "%-24s %-16s (%d) raw %.3f recall %.3f alarms %.3f overall %.3f notes %.3f whole %.3f%n",
        name,
        copy,
        of.size(),
        of.stream().mapToDouble(s -> s.curve().rawPitch()).average().orElse(0),
        of.stream().mapToDouble(s -> s.curve().voicingRecall()).average().orElse(0),
        of.stream().mapToDouble(s -> s.curve().falseAlarms()).average().orElse(0),
        of.stream().mapToDouble(s -> s.curve().overall()).average().orElse(0),
        of.stream().mapToDouble(s -> s.onsets()).average().orElse(0),
        of.stream().mapToDouble(s -> s.whole()).average().orElse(0));
  }
}
