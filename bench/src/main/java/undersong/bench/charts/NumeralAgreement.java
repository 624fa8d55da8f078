package undersong.bench.charts;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import undersong.bench.data.NumeralSong;
import undersong.bench.metrics.TechniqueMetrics;
import undersong.bench.metrics.Timed;
import undersong.reading.Reading;
import undersong.study.TechniqueFinders;
import undersong.technique.Finding;
import undersong.technique.Techniques;

/** How far what is found agrees with what an annotator's numerals say, song by song, pooled. */
final class NumeralAgreement {
  private static final double TOLD = 0.5;
  private static final List<String> IDS =
      List.of(
          "borrowed-chord",
          "secondary-dominant",
          "harmonic-minor-dominant",
          "key-lift",
          "modulation");

  /** Counted by song; annotators also write loops out, so only the recall says something. */
  static final String LOOPS = "chord-loop (songs)";

  private static final Set<String> ABOUT_KEYS = Set.of("key-lift", "modulation");

  /**
   * @param stated by the annotator
   * @param found by the program
   * @param agreed of both
   */
  record Count(int stated, int found, int agreed) {
    Count plus(Count other) {
      return new Count(stated + other.stated, found + other.found, agreed + other.agreed);
    }
  }

  private NumeralAgreement() {}

  static Map<String, Count> over(List<NumeralSong> songs) {
    Techniques techniques = TechniqueFinders.standard();
    Map<String, Count> counts = new TreeMap<>();
    for (NumeralSong song : songs) {
      Reading reading = ChartReadings.read(song.chart());
      List<Timed<String>> found = joined(techniques.in(reading));
      List<Timed<String>> stated = new NumeralTruth(song, ChartReadings.BEAT_SECONDS).occurrences();
      double bar = ChartReadings.BEAT_SECONDS * song.chart().bars().get(0).beats();
      boolean loop = found.stream().anyMatch(timed -> timed.value().equals("chord-loop"));
      counts.merge(
          LOOPS,
          new Count(song.goesRound() ? 1 : 0, loop ? 1 : 0, loop && song.goesRound() ? 1 : 0),
          Count::plus);
      for (String id : IDS) {
        counts.merge(id, count(of(id, stated), of(id, found), bar), Count::plus);
      }
    }
    return counts;
  }

  private static List<Timed<String>> of(String id, List<Timed<String>> all) {
    return all.stream().filter(timed -> timed.value().equals(id)).toList();
  }

  private static Count count(List<Timed<String>> stated, List<Timed<String>> found, double bar) {
    if (stated.isEmpty() || found.isEmpty()) {
      return new Count(stated.size(), found.size(), 0);
    }
    double recall = TechniqueMetrics.score(stated, found, bar).get("all").recall();
    return new Count(stated.size(), found.size(), (int) Math.round(recall * stated.size()));
  }

  /** What is told, also where it stands under another name; keys are told once, not per section. */
  private static List<Timed<String>> joined(List<Finding> findings) {
    List<Timed<String>> all = new ArrayList<>();
    for (Finding finding : findings) {
      if (finding.probability() >= TOLD) {
        add(all, finding, finding.technique().id());
        finding.under().forEach(under -> add(all, finding, under.id()));
      }
    }
    return all;
  }

  private static void add(List<Timed<String>> all, Finding finding, String id) {
    double start = finding.span().startSeconds();
    double end = finding.span().endSeconds();
    for (int i = all.size() - 1; i >= 0; i--) {
      Timed<String> other = all.get(i);
      if (ABOUT_KEYS.contains(id)
          && other.value().equals(id)
          && start <= other.endSeconds() + 1e-6
          && end >= other.startSeconds() - 1e-6) {
        all.set(
            i,
            new Timed<>(
                Math.min(start, other.startSeconds()), Math.max(end, other.endSeconds()), id));
        return;
      }
    }
    all.add(new Timed<>(start, end, id));
  }
}
