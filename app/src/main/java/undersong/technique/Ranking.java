package undersong.technique;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * What is worth a lesson: rare before common, marked before faint, sure before doubtful, and what
 * the listeners of this shelf said yes to before what they said no to. Immutable.
 *
 * <p>Worth is the product of probability, strength, rarity (bits of surprise at meeting the
 * technique in a song) and what verdicts have taught (twice the share of yes among yes and no, one
 * of each thrown in, so that nothing said changes nothing).
 */
public final class Ranking {
  /** A technique found in one of this many songs counts fully as rare. */
  private static final double RARE_SONGS = 50;

  /** What even the commonest technique is worth. */
  private static final double LEAST_RARITY = 0.05;

  /** What even the faintest occurrence is worth. */
  private static final double LEAST_STRENGTH = 0.3;

  private final Commonness commonness;
  private final Map<Technique, Verdicts> taught;

  public Ranking(Commonness commonness, Map<Technique, Verdicts> taught) {
    this.commonness = commonness;
    this.taught =
        taught.isEmpty() ? Map.of() : java.util.Collections.unmodifiableMap(new EnumMap<>(taught));
  }

  /** How often listeners agreed and disagreed. */
  public record Verdicts(int yes, int no) {
    static final Verdicts NONE = new Verdicts(0, 0);

    /** 1 where nothing was said; up to 2 for yes, down to 0 for no. */
    double leaning() {
      return 2.0 * (yes + 1) / (yes + no + 2);
    }
  }

  /**
   * A group of findings in its rank.
   *
   * @param worth above 0; compares within a song and between songs of one shelf
   * @param share of songs that have the technique
   * @param verdicts on the technique that counted
   */
  public record Ranked(FindingGroup group, double worth, double share, Verdicts verdicts) {}

  /** Everything, the most worthwhile first. */
  public List<Ranked> rank(List<Finding> findings) {
    List<Ranked> ranked = new ArrayList<>();
    for (FindingGroup group : FindingGroup.of(findings)) {
      Technique technique = group.technique();
      Verdicts verdicts = taught.getOrDefault(technique, Verdicts.NONE);
      double share = commonness.share(technique);
      double strength = LEAST_STRENGTH + (1 - LEAST_STRENGTH) * group.telling().strength();
      double worth = group.probability() * strength * rarity(share) * verdicts.leaning();
      ranked.add(new Ranked(group, worth, share, verdicts));
    }
    ranked.sort(
        Comparator.comparingDouble((Ranked one) -> -one.worth())
            .thenComparing(one -> one.group().occurrences().get(0).span().startSeconds()));
    return ranked;
  }

  /** The best of a ranked list, no technique more than twice. */
  public static List<Ranked> best(List<Ranked> ranked, int howMany) {
    Map<Technique, Integer> told = new EnumMap<>(Technique.class);
    List<Ranked> best = new ArrayList<>();
    for (Ranked one : ranked) {
      if (best.size() < howMany && told.merge(one.group().technique(), 1, Integer::sum) <= 2) {
        best.add(one);
      }
    }
    return best;
  }

  private static double rarity(double share) {
    double bits = -Math.log(share) / Math.log(RARE_SONGS);
    return Math.max(LEAST_RARITY, Math.min(1, bits));
  }
}
