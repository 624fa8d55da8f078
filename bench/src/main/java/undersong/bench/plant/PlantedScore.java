package undersong.bench.plant;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import undersong.bench.metrics.Calibration.Stated;
import undersong.reading.Section;
import undersong.render.DemoSong;
import undersong.render.score.Truth;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.time.Span;

/**
 * Holds findings against what was planted. Both are counted as they are told: a technique that
 * comes in every copy of a section was planted once, and findings of one group are one statement. A
 * finding is right where its technique was planted within a bar of it; where it is not, it is
 * wrong, unless the composer marked the technique as arguable in this song: then it is neither.
 */
final class PlantedScore {
  /** From here on a finding is told. */
  static final double TOLD = 0.5;

  /** Found and missed plants, right and wrong statements, of one technique. */
  static final class Count {
    int planted;
    int found;
    int wrong;

    double precision() {
      return found + wrong == 0 ? Double.NaN : (double) found / (found + wrong);
    }

    double recall() {
      return planted == 0 ? Double.NaN : (double) found / planted;
    }

    double f() {
      return 2.0 * found / (planted + found + wrong);
    }
  }

  private final Map<Technique, Count> counts = new LinkedHashMap<>();
  private final List<Stated> stated = new ArrayList<>();
  private final Map<Technique, List<Stated>> statedOf = new LinkedHashMap<>();
  private final List<String> remarks = new ArrayList<>();
  private int wrongInPlainSongs;
  private double plainMinutes;

  void add(PlantedSong planted, DemoSong song, List<Finding> findings) {
    double bar = song.score().meter().beats() * 60 / song.score().bpm();
    Map<String, List<Span>> units = new LinkedHashMap<>();
    for (Truth.Planted plant : song.truth().planted()) {
      units.computeIfAbsent(unit(song, plant), u -> new ArrayList<>()).add(plant.span());
    }
    units.forEach(
        (unit, spans) -> {
          Technique technique = Technique.named(unit.split(" ", -1)[0]);
          Count count = count(technique);
          count.planted++;
          boolean found =
              findings.stream()
                  .filter(f -> f.probability() >= TOLD)
                  .filter(f -> f.technique() == technique || f.under().contains(technique))
                  .anyMatch(f -> meets(f.span(), spans, bar));
          count.found += found ? 1 : 0;
          if (!found) {
            remarks.add("%s missed %s %s".formatted(planted.id(), unit, spans.get(0)));
          }
        });
    judge(planted, song, findings, bar);
  }

  private void judge(PlantedSong planted, DemoSong song, List<Finding> findings, double bar) {
    Map<String, List<Finding>> groups = new LinkedHashMap<>();
    for (Finding finding : findings) {
      groups
          .computeIfAbsent(finding.technique().id() + " " + finding.group(), g -> new ArrayList<>())
          .add(finding);
    }
    int wrong = 0;
    for (List<Finding> group : groups.values()) {
      Technique technique = group.get(0).technique();
      List<Span> spans =
          song.truth().planted().stream()
              .filter(p -> p.techniqueId().equals(technique.id()))
              .map(Truth.Planted::span)
              .toList();
      boolean right = group.stream().anyMatch(f -> meets(f.span(), spans, bar));
      if (!right && planted.arguable().contains(technique)) {
        continue;
      }
      double probability = group.stream().mapToDouble(Finding::probability).max().orElseThrow();
      Stated statement = new Stated(probability, right ? 1 : 0, 1);
      stated.add(statement);
      statedOf.computeIfAbsent(technique, t -> new ArrayList<>()).add(statement);
      if (!right && probability >= TOLD) {
        wrong++;
        count(technique).wrong++;
        remarks.add(
            "%s wrong %s %.2f %s"
                .formatted(planted.id(), technique.id(), probability, group.get(0).span()));
      }
    }
    if (planted.planted().isEmpty()) {
      wrongInPlainSongs += wrong;
      plainMinutes += song.score().durationSeconds() / 60;
    }
  }

  private static String unit(DemoSong song, Truth.Planted plant) {
    String letter =
        song.truth().reading().get(undersong.reading.Facet.FORM).sections().stream()
            .filter(s -> s.span().contains(plant.span().startSeconds() + 1e-3))
            .map(Section::letter)
            .findFirst()
            .orElse("");
    return plant.techniqueId() + " " + letter;
  }

  private static boolean meets(Span found, List<Span> planted, double barSeconds) {
    return planted.stream()
        .anyMatch(
            span ->
                Math.max(span.startSeconds(), found.startSeconds())
                        - Math.min(span.endSeconds(), found.endSeconds())
                    <= barSeconds);
  }

  private Count count(Technique technique) {
    return counts.computeIfAbsent(technique, t -> new Count());
  }

  /** By technique; empty counts for those neither planted nor named. */
  Count of(Technique technique) {
    return counts.getOrDefault(technique, new Count());
  }

  Count pooled() {
    Count all = new Count();
    for (Count count : counts.values()) {
      all.planted += count.planted;
      all.found += count.found;
      all.wrong += count.wrong;
    }
    return all;
  }

  double wrongPerPlainMinute() {
    return wrongInPlainSongs / plainMinutes;
  }

  List<Stated> stated() {
    return List.copyOf(stated);
  }

  Map<Technique, List<Stated>> statedOf() {
    return statedOf;
  }

  /** What was missed and what was wrong, song by song. */
  Set<String> remarks() {
    return new LinkedHashSet<>(remarks);
  }
}
