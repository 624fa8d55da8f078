package undersong.technique;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.time.Span;

class RankingTest {
  private static Finding finding(Technique technique, double start, double sure, double strength) {
    Span span = new Span(start, start + 2);
    Sentence words = Sentence.of("kind.theory");
    return new Finding(
            technique,
            span,
            Optional.empty(),
            sure,
            "at " + start,
            words,
            List.of(new Evidence.Heard(span, words)))
        .withStrength(strength);
  }

  private static List<Technique> order(Ranking ranking, Finding... findings) {
    return ranking.rank(List.of(findings)).stream()
        .map(ranked -> ranked.group().technique())
        .toList();
  }

  @Test
  void putsTheRareBeforeTheCommon() {
    Ranking ranking = new Ranking(Commonness.standard(), Map.of());
    assertThat(
            order(
                ranking,
                finding(Technique.CHORD_LOOP, 0, 0.95, 0.5),
                finding(Technique.CHROMATIC_INNER_LINE, 4, 0.8, 0.5)))
        .containsExactly(Technique.CHROMATIC_INNER_LINE, Technique.CHORD_LOOP);
  }

  @Test
  void putsTheSureAndTheMarkedFirst() {
    Ranking ranking = new Ranking(Commonness.standard(), Map.of());
    List<Ranking.Ranked> ranked =
        ranking.rank(
            List.of(
                finding(Technique.BUILD, 0, 0.5, 0.5),
                finding(Technique.BUILD, 4, 0.9, 0.5),
                finding(Technique.BUILD, 8, 0.9, 0.9)));
    assertThat(ranked)
        .extracting(one -> one.group().occurrences().get(0).span().startSeconds())
        .containsExactly(8.0, 4.0, 0.0);
  }

  @Test
  void learnsFromVerdictsAndShowsThem() {
    Finding echo = finding(Technique.ECHO, 0, 0.8, 0.5);
    Finding layers = finding(Technique.FADE_OUT, 4, 0.8, 0.5);
    Ranking untaught = new Ranking(Commonness.standard(), Map.of());
    assertThat(order(untaught, echo, layers)).containsExactly(Technique.FADE_OUT, Technique.ECHO);
    Ranking taught =
        new Ranking(
            Commonness.standard(),
            Map.of(
                Technique.ECHO, new Ranking.Verdicts(3, 0),
                Technique.FADE_OUT, new Ranking.Verdicts(0, 2)));
    List<Ranking.Ranked> ranked = taught.rank(List.of(echo, layers));
    assertThat(ranked.get(0).group().technique()).isEqualTo(Technique.ECHO);
    assertThat(ranked.get(0).verdicts()).isEqualTo(new Ranking.Verdicts(3, 0));
  }

  /** Twenty songs' worth of table and twenty songs of shelf weigh the same. */
  @Test
  void mixesTableAndShelf() {
    Commonness table = Commonness.standard();
    double before = table.share(Technique.KEY_LIFT);
    Commonness shelf = table.withShelf(20, Map.of(Technique.KEY_LIFT, 20));
    assertThat(shelf.share(Technique.KEY_LIFT)).isEqualTo((before + 1) / 2);
    assertThat(table.share(Technique.KEY_LIFT)).isEqualTo(before);
  }

  @Test
  void knowsHowCommonEveryTechniqueIs() {
    Commonness table = Commonness.standard();
    for (Technique technique : Technique.values()) {
      assertThat(table.share(technique)).as(technique.id()).isStrictlyBetween(0.0, 1.0);
    }
  }

  @Test
  void tellsNoTechniqueMoreThanTwiceAmongTheBest() {
    List<Finding> findings = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      findings.add(finding(Technique.KEY_LIFT, 4 * i, 0.9, 0.9));
    }
    findings.add(finding(Technique.CHORD_LOOP, 40, 0.9, 0.2));
    List<Ranking.Ranked> ranked = new Ranking(Commonness.standard(), Map.of()).rank(findings);
    assertThat(Ranking.best(ranked, 10))
        .extracting(one -> one.group().technique())
        .containsExactly(Technique.KEY_LIFT, Technique.KEY_LIFT, Technique.CHORD_LOOP);
  }
}
