package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.time.Span;

/**
 * The delays that the trained ear hears: for every lag a chain of two states, with copies and
 * without, over what the ear says of it moment by moment. One moment seldom tells; what a lag gains
 * over some seconds does. A lag heard once is looked for more readily in the rest of the song,
 * since most songs are given one delay.
 *
 * <p><b>In:</b> {@link EarHead#ECHO}, ten frames a second. <b>Out:</b> stretches from the first
 * sound that comes back to its last copy. <b>Silence:</b> none. <b>Cost:</b> O(frames * lags).
 */
public final class HeardDelays {
  /** Lags in frames of the ear: bin b is {@code b + SHORTEST_FRAMES}. */
  static final int SHORTEST_FRAMES = 4;

  private static final int NONE = EarHead.ECHO.bins() - 1;
  private static final double FLOOR = 1e-5;

  /** Bins beside a lag that are the same lag. */
  private static final int BESIDE = 1;

  /** A little less, so that of three neighbors the middle one is told. */
  private static final double BESIDE_WEIGHT = 0.9;

  /** Whole multiples of a lag are its further copies. */
  private static final double SAME_RATIO = 0.08;

  /**
   * Found by {@code undersong.bench.decode.DelayFit} on tuning songs.
   *
   * @param weight what one moment counts: moments of one sound are not independent
   * @param offset by which the logarithm of lag over none is raised, since no echo is the usual
   *     case
   * @param against the most that a moment says against a lag, before it is weighed: between notes
   *     nothing comes back
   * @param most that it says for one
   * @param enter cost of entering a stretch
   * @param enterLikeliest the same for the lag of which the ear says most in the whole song
   * @param enterAgain the same for a lag that holds somewhere in the song
   * @param leave cost of leaving it
   * @param leastShare of the evidence for the song's clearest lag that another one needs
   * @param leastSum of the evidence for a lag in the whole song: a band that repeats itself sounds
   *     like a delay once, a delay is used again
   * @param leastStretch share of the evidence for a lag's clearest stretch that another one needs:
   *     what is sent into a delay for a whole section is not sent there for a second elsewhere
   */
  public record Settings(
      double weight,
      double offset,
      double against,
      double most,
      double enter,
      double enterLikeliest,
      double enterAgain,
      double leave,
      double leastShare,
      double leastSum,
      double leastStretch) {
    public static final Settings DEFAULTS =
        new Settings(0.29, 2.8, 2, 5, 6, 5.7, 1, 0.5, 0.4, 8, 0.04);
  }

  private static final double REST_SECONDS = 2;

  private HeardDelays() {}

  /**
   * A stretch in which copies are heard.
   *
   * @param bin of the ear
   * @param lagSeconds mean of what the ear says about the bin: good to some 10 ms
   * @param evidence sum of what its moments say
   */
  public record Stretch(int bin, double lagSeconds, Span span, double evidence) {
    private boolean excludes(Stretch other) {
      double one = bin + SHORTEST_FRAMES;
      double two = other.bin + SHORTEST_FRAMES;
      double ratio = Math.max(one, two) / Math.min(one, two);
      return bin != other.bin
          && (Math.abs(bin - other.bin) <= 2 * BESIDE
              || Math.abs(ratio - Math.rint(ratio)) < SAME_RATIO
              || span.overlaps(other.span));
    }
  }

  /**
   * @param echo {@link EarHead#ECHO}
   */
  public static List<Stretch> of(FrameMatrix echo, Settings settings) {
    double[][] evidence = evidence(echo, settings);
    List<List<Stretch>> byLag = new ArrayList<>();
    double clearest = 0;
    int likeliest = likeliest(echo);
    for (double[] ofLag : evidence) {
      boolean most = Math.abs(byLag.size() - likeliest) <= BESIDE;
      double enter = most ? settings.enterLikeliest : settings.enter;
      byLag.add(stretches(ofLag, byLag.size(), enter, settings.leave, echo));
      clearest = Math.max(clearest, sum(byLag.get(byLag.size() - 1)));
    }
    List<Integer> bins = new ArrayList<>();
    for (int bin = 0; bin < NONE; bin++) {
      if (!byLag.get(bin).isEmpty()) {
        bins.add(bin);
      }
    }
    bins.sort(Comparator.comparingDouble(bin -> -sum(byLag.get(bin))));
    List<Stretch> found = new ArrayList<>();
    List<Integer> told = new ArrayList<>();
    for (int bin : bins) {
      boolean enough = sum(byLag.get(bin)) >= settings.leastShare * clearest;
      if (enough && byLag.get(bin).stream().anyMatch(s -> found.stream().noneMatch(s::excludes))) {
        found.addAll(byLag.get(bin));
        told.add(bin);
      }
    }
    found.clear();
    for (int bin : told) {
      for (Stretch stretch : clear(joined(again(evidence[bin], bin, settings, echo)), settings)) {
        if (found.stream().noneMatch(stretch::excludes)) {
          found.add(stretch);
        }
      }
    }
    found.sort(Comparator.comparingDouble(s -> s.span.startSeconds()));
    return found;
  }

  /** The lag that the ear gives most probability, all moments together. */
  private static int likeliest(FrameMatrix echo) {
    double[] sums = new double[NONE];
    for (int frame = 0; frame < echo.frames(); frame++) {
      for (int bin = 0; bin < NONE; bin++) {
        sums[bin] += echo.at(frame, bin);
      }
    }
    int best = BESIDE;
    for (int bin = BESIDE; bin + BESIDE < NONE; bin++) {
      best = about(sums, bin) > about(sums, best) ? bin : best;
    }
    return best;
  }

  private static double about(double[] sums, int bin) {
    return sums[bin - 1] + sums[bin] + sums[bin + 1];
  }

  private static List<Stretch> again(
      double[] evidence, int bin, Settings settings, FrameMatrix echo) {
    return stretches(evidence, bin, settings.enterAgain, settings.leave, echo);
  }

  /** Where notes rest a while, one stretch goes on. */
  private static List<Stretch> joined(List<Stretch> backwards) {
    List<Stretch> joined = new ArrayList<>();
    for (Stretch earlier : backwards) {
      int last = joined.size() - 1;
      if (last >= 0
          && joined.get(last).span.startSeconds() - earlier.span.endSeconds() < REST_SECONDS) {
        Stretch later = joined.get(last);
        Span span = new Span(earlier.span.startSeconds(), later.span.endSeconds());
        double lag = (earlier.lagSeconds + later.lagSeconds) / 2;
        joined.set(last, new Stretch(later.bin, lag, span, earlier.evidence + later.evidence));
      } else {
        joined.add(earlier);
      }
    }
    return joined;
  }

  /** Those of a lag that there is enough evidence for, and of them the clear ones. */
  private static List<Stretch> clear(List<Stretch> all, Settings settings) {
    double clearest = all.stream().mapToDouble(Stretch::evidence).max().orElse(0);
    return sum(all) < settings.leastSum
        ? List.of()
        : all.stream().filter(s -> s.evidence >= settings.leastStretch * clearest).toList();
  }

  private static double sum(List<Stretch> stretches) {
    return stretches.stream().mapToDouble(Stretch::evidence).sum();
  }

  /** What each moment says for each lag, against no copies at all: {@code [bin][frame]}. */
  private static double[][] evidence(FrameMatrix echo, Settings settings) {
    double[][] evidence = new double[NONE][echo.frames()];
    for (int frame = 0; frame < echo.frames(); frame++) {
      double none = 1;
      for (int bin = 0; bin < NONE; bin++) {
        none -= echo.at(frame, bin);
      }
      for (int bin = 0; bin < NONE; bin++) {
        double here = FLOOR;
        for (int b = Math.max(0, bin - BESIDE); b <= Math.min(NONE - 1, bin + BESIDE); b++) {
          here += (b == bin ? 1 : BESIDE_WEIGHT) * echo.at(frame, b);
        }
        double odds = Math.log(here / (Math.max(0, none) + FLOOR)) + settings.offset;
        evidence[bin][frame] =
            settings.weight * Math.max(-settings.against, Math.min(settings.most, odds));
      }
    }
    return evidence;
  }

  /** The best path of the two states (Viterbi), from its end back. */
  private static List<Stretch> stretches(
      double[] evidence, int bin, double enter, double leave, FrameMatrix echo) {
    int frames = evidence.length;
    boolean[] left = new boolean[frames];
    boolean[] stayed = new boolean[frames];
    double without = 0;
    double with = -enter;
    for (int frame = 0; frame < frames; frame++) {
      left[frame] = with - leave > without;
      stayed[frame] = with >= without - enter;
      double next = Math.max(without, with - leave);
      with = Math.max(with, without - enter) + evidence[frame];
      without = next;
    }
    List<Stretch> found = new ArrayList<>();
    boolean inside = with - leave > without;
    int end = frames;
    double sum = 0;
    for (int frame = frames - 1; frame >= 0; frame--) {
      if (inside) {
        sum += evidence[frame];
        inside = stayed[frame] && frame > 0;
        if (!inside) {
          found.add(stretch(bin, frame, end, sum, echo));
          sum = 0;
        }
      } else if (left[frame]) {
        inside = true;
        end = frame;
      }
    }
    return found;
  }

  /** Copies are heard a lag after the sound they are of. */
  private static Stretch stretch(int bin, int from, int to, double evidence, FrameMatrix echo) {
    double rate = echo.clock().framesPerSecond();
    double sum = FLOOR;
    double bins = FLOOR * bin;
    for (int frame = from; frame < to; frame++) {
      for (int b = Math.max(0, bin - BESIDE); b <= Math.min(NONE - 1, bin + BESIDE); b++) {
        sum += echo.at(frame, b);
        bins += b * echo.at(frame, b);
      }
    }
    double lag = (bins / sum + SHORTEST_FRAMES) / EarHead.FRAMES_PER_SECOND;
    return new Stretch(bin, lag, new Span(Math.max(0, from / rate - lag), to / rate), evidence);
  }
}
