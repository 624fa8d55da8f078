package undersong.bench.charts;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import undersong.bench.data.NumeralSong;
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
   * @param statedFound of the stated, those that a finding meets
   * @param foundStated of the found, those that meet a stated one
   */
  record Count(int stated, int found, int statedFound, int foundStated) {
    Count plus(Count other) {
      return new Count(
          stated + other.stated,
          found + other.found,
          statedFound + other.statedFound,
          foundStated + other.foundStated);
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
      int both = loop && song.goesRound() ? 1 : 0;
      counts.merge(
          LOOPS, new Count(song.goesRound() ? 1 : 0, loop ? 1 : 0, both, both), Count::plus);
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
    return new Count(
        stated.size(), found.size(), meeting(stated, found, bar), meeting(found, stated, bar));
  }

  /** How many of the first lie within a bar of any of the others: some are told once a section. */
  private static int meeting(List<Timed<String>> some, List<Timed<String>> others, double bar) {
    return (int)
        some.stream()
            .filter(
                one ->
                    others.stream()
                        .anyMatch(
                            other ->
                                one.overlapSeconds(
                                        other.startSeconds() - bar, other.endSeconds() + bar)
                                    > 0))
            .count();
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
