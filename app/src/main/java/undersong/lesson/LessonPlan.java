package undersong.lesson;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import undersong.notation.NotationSettings;
import undersong.technique.BarRange;
import undersong.technique.Finding;
import undersong.technique.Ranking;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.time.Span;

/** A first draft of a lesson, for the teacher to cut, order and word. */
public final class LessonPlan {
  private static final int BARS_SHOWN = 8;

  /** Findings less probable than this are not put before a class unasked. */
  private static final double SURE_ENOUGH = 0.5;

  private LessonPlan() {}

  /**
   * The findings worth most, theory first, then songwriting, then production, each chapter by time.
   *
   * @param ranked the most worthwhile first
   * @param howMany items at most
   */
  public static Lesson draft(
      long songId,
      String title,
      int revision,
      List<Ranking.Ranked> ranked,
      int howMany,
      NotationSettings settings,
      Texts texts) {
    List<Finding> chosen = new ArrayList<>();
    List<Ranking.Ranked> sure =
        ranked.stream().filter(one -> one.group().probability() >= SURE_ENOUGH).toList();
    for (Ranking.Ranked one : Ranking.best(sure, howMany)) {
      chosen.add(one.group().telling());
    }
    chosen.sort(
        Comparator.comparing((Finding finding) -> finding.technique().kind())
            .thenComparing(finding -> finding.span().startSeconds()));
    return new Lesson(
        songId,
        title,
        revision,
        settings,
        1,
        chosen.stream().map(finding -> item(finding, texts)).toList());
  }

  /** An item on a finding, without words of the teacher yet. */
  public static LessonItem item(Finding finding, Texts texts) {
    String name = texts.name(finding.technique());
    return new LessonItem(
        Optional.of(finding.technique()),
        finding.span(),
        name.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + name.substring(1),
        "",
        finding.bars().map(LessonPlan::shown),
        false,
        texts.summary(finding));
  }

  /** An item on the teacher's own remark; its words are the teacher's, as they stand. */
  public static LessonItem remark(Span span, String words, Optional<BarRange> bars) {
    String first = words.lines().findFirst().orElse("").strip();
    String heading = first.length() > 80 ? first.substring(0, 77) + "..." : first;
    return new LessonItem(
        Optional.empty(),
        span,
        heading.isEmpty() ? "Remark" : heading,
        words,
        bars.map(LessonPlan::shown),
        false,
        "");
  }

  private static BarRange shown(BarRange bars) {
    return new BarRange(bars.first(), Math.min(bars.last(), bars.first() + BARS_SHOWN - 1));
  }

  /** The finding an item was made from, as it stands now; empty where it is told no more. */
  static Optional<Finding> now(LessonItem item, List<Finding> findings) {
    Optional<Technique> technique = item.technique();
    return findings.stream()
        .filter(finding -> technique.isPresent() && finding.technique() == technique.get())
        .filter(finding -> finding.span().overlaps(item.span()))
        .max(Comparator.comparingDouble(finding -> finding.span().overlapSeconds(item.span())));
  }
}
