package undersong.estimate;

import java.util.Arrays;
import java.util.List;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;

/**
 * Where a line that stands out of the mix stands: its partials vote, each time and frequency cell
 * by its level, as far as it holds one sound. The place of a cell is that of a constant-power pan
 * (Avendano 2003 gives the index of the same pan).
 *
 * <p><b>Silence</b> casts no votes. <b>Cost:</b> O(frames * partials).
 */
public final class PlaceVotes {
  private static final double HIGHEST_HZ = 6000;
  private static final int PARTIALS = 12;
  private static final int PLACES = 101;
  private static final double ATTACK_SECONDS = 0.04;

  private final StereoPowers powers;
  private final Manner manner;
  private final double[] votes = new double[PLACES];

  public PlaceVotes(StereoPowers powers, Manner manner) {
    this.powers = powers;
    this.manner = manner;
  }

  /**
   * How is voted.
   *
   * @param lowestHz of the partials that vote
   * @param likenessPower how much less a cell counts whose channels are unlike
   * @param reach so many fiftieths about a place its crowd is counted
   */
  public record Manner(double lowestHz, int likenessPower, int reach) {
    /** Tells crowds apart; below 300 Hz the bass is in the cells, too. */
    public static final Manner APART = new Manner(300, 16, 5);

    /**
     * Says where one sound stands. Where the channels of a recording are bent unlike each other,
     * each partial stands elsewhere, and the sound where most of its power is: so a crowd is wide,
     * and the fundamental votes. Fitted by {@code undersong.bench.decode.PlaceFit}.
     */
    public static final Manner TOGETHER = new Manner(120, 4, 20);
  }

  /**
   * The place where most votes gather.
   *
   * @param placement -1 left to 1 right; 0 where nobody votes
   * @param share of the votes that lie near it
   */
  public record Crowd(double placement, double share) {}

  /** Lets a note vote from just after its attack to its end. */
  public PlaceVotes add(double startSeconds, double endSeconds, double hertz) {
    int from = powers.frameAt(startSeconds + ATTACK_SECONDS);
    int end = Math.max(from + 1, powers.frameAt(endSeconds));
    for (int frame = from; frame < end; frame++) {
      vote(frame, hertz);
    }
    return this;
  }

  /** Adds another note's votes to these. */
  public void addAll(PlaceVotes others) {
    for (int i = 0; i < PLACES; i++) {
      votes[i] += others.votes[i];
    }
  }

  public Crowd crowd() {
    double sum = 0;
    double best = 0;
    int center = PLACES / 2;
    for (int i = 0; i < PLACES; i++) {
      sum += votes[i];
      double near = about(i);
      if (near > best) {
        best = near;
        center = i;
      }
    }
    double mean = 0;
    double near = 0;
    for (int j = Math.max(0, center - manner.reach);
        j <= Math.min(PLACES - 1, center + manner.reach);
        j++) {
      near += votes[j];
      mean += votes[j] * (2.0 * j / (PLACES - 1) - 1);
    }
    return near > 0 ? new Crowd(mean / near, near / sum) : new Crowd(0, 0);
  }

  /**
   * Where sounds stand now that do not stand there at any other time: the place whose share of the
   * votes is greater by most, and by how much (the crowd's share). What stands somewhere anyhow,
   * like chords in the middle, cancels out.
   *
   * @param now one for each sound
   * @param otherwise the same sounds' pitches, time by time
   */
  public static Crowd gained(List<PlaceVotes> now, List<List<PlaceVotes>> otherwise) {
    double most = 0;
    int center = PLACES / 2;
    for (int i = 0; i < PLACES; i++) {
      int place = i;
      double anyhow =
          otherwise.stream().mapToDouble(time -> meanShare(time, place)).max().orElse(0);
      double gained = meanShare(now, i) - anyhow;
      if (gained > most) {
        most = gained;
        center = i;
      }
    }
    return new Crowd(2.0 * center / (PLACES - 1) - 1, Math.min(1, most));
  }

  private static double meanShare(List<PlaceVotes> all, int place) {
    return all.stream().mapToDouble(votes -> votes.shareAbout(place)).average().orElse(0);
  }

  private double shareAbout(int place) {
    double sum = Arrays.stream(votes).sum();
    return sum > 0 ? about(place) / sum : 0;
  }

  private double about(int place) {
    double near = 0;
    for (int j = Math.max(0, place - manner.reach);
        j <= Math.min(PLACES - 1, place + manner.reach);
        j++) {
      near += votes[j] * (1 - Math.abs(place - j) / (manner.reach + 1.0));
    }
    return near;
  }

  /** Power of a note's partials in one frame, in the mean of the channels. */
  public double partialPower(int frame, double hertz) {
    double power = 0;
    int before = -1;
    for (int partial = 1; partial <= PARTIALS && partial * hertz < HIGHEST_HZ; partial++) {
      int bin = StereoImage.binOf(partial * hertz);
      power += bin == before ? 0 : powers.power(frame, bin);
      before = bin;
    }
    return power;
  }

  private void vote(int frame, double hertz) {
    int before = -1;
    for (int partial = 1; partial <= PARTIALS && partial * hertz < HIGHEST_HZ; partial++) {
      int bin = StereoImage.binOf(partial * hertz);
      double left = powers.left(frame, bin);
      double right = powers.right(frame, bin);
      double weaker = Math.min(left, right);
      double stronger = Math.max(left, right);
      if (bin == before || partial * hertz < manner.lowestHz || stronger < 1e-11) {
        continue;
      }
      before = bin;
      double likeness =
          weaker < 0.01 * stronger
              ? 1
              : Math.max(0, powers.cross(frame, bin)) / Math.sqrt(weaker * stronger);
      int at = (int) Math.round((StereoPowers.place(left, right) + 1) / 2 * (PLACES - 1));
      votes[at] += Math.sqrt(left + right) * Math.pow(Math.min(1, likeness), manner.likenessPower);
    }
  }
}
