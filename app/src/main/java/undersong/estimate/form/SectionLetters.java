package undersong.estimate.form;

import java.util.ArrayList;
import java.util.List;

/**
 * Gives the same letter to sections that are the same music, also when one is a little longer or
 * has been lifted by one to four semitones. Sections join the earlier one they are most like.
 */
final class SectionLetters {
  /** A boundary may be a little late: so far one copy is pushed along the other. */
  private static final int FARTHEST_BARS = 2;

  /** Share of the shorter section that must lie beside the other. */
  private static final double LEAST_COMMON = 0.75;

  private static final double SHIFT_PENALTY = 0.02;
  private static final double LENGTH_PENALTY = 0.15;

  private SectionLetters() {}

  /**
   * One section's likeness to an earlier one.
   *
   * @param section index of the section it is most like; itself where none is like it
   * @param likeness 0 = as any two stretches of this song, 1 = the same
   */
  record Match(int section, int semitones, double likeness) {}

  /**
   * @param starts first bars of the sections
   * @param settings its sameness limit decides
   * @param size bars that are music; those after them ring on
   * @return one match per section; a section that matches itself opens a new letter
   */
  static List<Match> match(
      SelfSimilarity bars, List<Integer> starts, FormSettings settings, int size) {
    List<Match> matches = new ArrayList<>();
    for (int section = 0; section < starts.size(); section++) {
      Match best = new Match(section, 0, settings.samenessLimit());
      for (int earlier = 0; earlier < section; earlier++) {
        Match match = compare(bars, starts, earlier, section, size);
        if (match.likeness() > best.likeness()) {
          best = match;
        }
      }
      matches.add(best);
    }
    return matches;
  }

  private static Match compare(
      SelfSimilarity bars, List<Integer> starts, int earlier, int later, int size) {
    int lengthEarlier = end(starts, earlier, size) - starts.get(earlier);
    int lengthLater = end(starts, later, size) - starts.get(later);
    int shorter = Math.min(lengthEarlier, lengthLater);
    int longer = Math.max(lengthEarlier, lengthLater);
    Match best = new Match(earlier, 0, Double.NEGATIVE_INFINITY);
    if (shorter * 2 < longer) {
      return best;
    }
    for (int shift = -FARTHEST_BARS; shift <= FARTHEST_BARS; shift++) {
      int fromEarlier = Math.max(0, shift);
      int fromLater = Math.max(0, -shift);
      int common = Math.min(lengthEarlier - fromEarlier, lengthLater - fromLater);
      if (common >= LEAST_COMMON * shorter) {
        double penalty =
            SHIFT_PENALTY * Math.abs(shift) + LENGTH_PENALTY * (longer - common) / longer;
        for (int lift : SelfSimilarity.LIFTS) {
          double likeness =
              bars.alongside(
                      starts.get(earlier) + fromEarlier,
                      starts.get(later) + fromLater,
                      common,
                      lift)
                  - penalty
                  - (lift == 0 ? 0 : SelfSimilarity.LIFT_PENALTY);
          if (likeness > best.likeness()) {
            best = new Match(earlier, lift, likeness);
          }
        }
      }
    }
    return best;
  }

  private static int end(List<Integer> starts, int section, int size) {
    return section + 1 < starts.size() ? starts.get(section + 1) : size;
  }
}
