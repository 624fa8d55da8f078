package undersong.estimate.space;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;

/**
 * Reads the place of a sound off what it adds: powers and cross power of unrelated sounds add up,
 * so the rise from before an onset to after it belongs to the sound that begins. Bins whose rise is
 * not that of one sound in one place count less.
 *
 * <p>The place is that of a constant-power pan with the same powers; Avendano's index (2003) of the
 * same rise is {@code sign(p) (1 - cos(p pi / 2))}.
 */
final class Increments {
  private static final double BEFORE_FROM_SECONDS = 0.14;
  private static final double BEFORE_TO_SECONDS = 0.06;
  private static final double AFTER_FROM_SECONDS = 0.02;

  /** A bin must come to at least this share of its power by the rise. */
  private static final double LEAST_RISE = 0.4;

  private final StereoPowers powers;

  Increments(StereoPowers powers) {
    this.powers = powers;
  }

  /**
   * @param placement -1 left to 1 right
   * @param power what the sound adds, in the mean of the channels
   * @param agreement share of the weight of its bins that lies within 0.15 of the placement
   */
  record Place(double placement, double power, double agreement) {}

  private record Vote(double placement, double weight) {}

  /**
   * The place of a sound that begins; of no power where nothing rises.
   *
   * @param seconds of the onset
   * @param lengthSeconds that the sound lasts at least
   */
  Place at(double seconds, double lengthSeconds, List<Integer> bins) {
    int beforeFrom = StereoImage.CLOCK.frameAt(seconds - BEFORE_FROM_SECONDS);
    int beforeEnd = StereoImage.CLOCK.frameAt(seconds - BEFORE_TO_SECONDS) + 1;
    int afterFrom = StereoImage.CLOCK.frameAt(seconds + AFTER_FROM_SECONDS);
    int afterEnd =
        Math.max(afterFrom + 2, StereoImage.CLOCK.frameAt(seconds + Math.min(0.2, lengthSeconds)));
    int last = Math.min(powers.frames(), afterEnd);
    if (last <= afterFrom) {
      return new Place(0, 0, 0);
    }
    List<Vote> votes = new ArrayList<>();
    double power = 0;
    for (int bin : bins) {
      double[] before = new double[3];
      double[] after = new double[3];
      powers.addTo(before, beforeFrom, beforeEnd, bin);
      powers.addTo(after, afterFrom, last, bin);
      int framesBefore = Math.max(1, beforeEnd - Math.max(0, beforeFrom));
      double left = after[0] / (last - afterFrom) - before[0] / framesBefore;
      double right = after[1] / (last - afterFrom) - before[1] / framesBefore;
      double cross = after[2] / (last - afterFrom) - before[2] / framesBefore;
      double whole = (after[0] + after[1]) / (last - afterFrom);
      double rise = left + right;
      if (rise < LEAST_RISE * whole || rise < 1e-11) {
        continue;
      }
      power += rise / 2;
      votes.add(new Vote(StereoPowers.place(left, right), rise * oneness(left, right, cross)));
    }
    return judged(votes, power);
  }

  private static Place judged(List<Vote> votes, double power) {
    double sum = votes.stream().mapToDouble(Vote::weight).sum();
    if (sum <= 0) {
      return new Place(0, 0, 0);
    }
    votes.sort(Comparator.comparingDouble(Vote::placement));
    double median = 0;
    double passed = 0;
    for (Vote vote : votes) {
      passed += vote.weight();
      if (passed >= sum / 2) {
        median = vote.placement();
        break;
      }
    }
    double near = 0;
    double mean = 0;
    for (Vote vote : votes) {
      if (Math.abs(vote.placement() - median) <= 0.15) {
        near += vote.weight();
        mean += vote.weight() * vote.placement();
      }
    }
    return new Place(mean / near, power, near / sum);
  }

  /** 1 where the rise can be that of one sound panned by level, towards 0 where it cannot. */
  private static double oneness(double left, double right, double cross) {
    double weaker = Math.max(0, Math.min(left, right));
    double stronger = Math.max(left, right);
    if (weaker < 0.01 * stronger) {
      return 1; // hard to one side: nothing to be alike
    }
    double likeness = Math.max(0, cross) / Math.sqrt(weaker * stronger);
    return Math.pow(Math.min(1, likeness), 4) + 0.01;
  }
}
