package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * What moments all over a song say of one lag, and the stretches in which it holds: the best path
 * of a chain with two states, with a copy and without.
 *
 * <p>At distances at which bands repeat themselves the whole mix says nothing, since samples and
 * patterns return to the sample, too. There the partials of the lead must return, more than they
 * usually do in this song, and weaker than they were sung. At other distances the mix itself says
 * it, whatever part is sent into the delay.
 */
public final class DelayTrack {
  /**
   * Limits and costs, found by {@code DelayFit} on songs for setting thresholds.
   *
   * @param mix from which on the mix speaks for a copy
   * @param mixUsual so much of the mix may stand out usually at a lag at which bands do not repeat
   * @param lead from which on the lead speaks for a copy
   * @param gain usual level of a first copy
   * @param gainWidth how far copies lie from it
   * @param enter cost of entering a stretch with copies
   * @param leastMix evidence that a lag needs as a whole
   * @param leastLead the same where the lead alone speaks
   */
  public record Settings(
      double mix,
      double mixUsual,
      double lead,
      double gain,
      double gainWidth,
      double enter,
      double leastMix,
      double leastLead) {
    public static final Settings DEFAULTS = new Settings(1.8, 1.35, 1.6, 0.38, 0.16, 4, 14, 5.5);
  }

  private static final double LEAVE = 1;
  private static final double MIX_SLOPE = 2;
  private static final double LEAD_SLOPE = 1.5;
  private static final double LEAST_OF_MIX = -1.2;
  private static final double MOST_OF_MIX = 2.5;
  private static final double LEAST_OF_LEAD = -1.5;
  private static final double MOST_OF_LEAD = 2;
  private static final double UNSUNG = -0.1;

  /**
   * Where nothing begins and nobody sings, what rings is like itself, and says nothing for a copy.
   */
  private static final double NOTHING_BEGINS = -0.1;

  /** What the lead adds to what the mix says, or takes from it. */
  private static final double LEAST_ADDED = -0.3;

  private static final double MOST_ADDED = 0.7;

  /** Where the mix stands out so much further than the lead, something else returns. */
  private static final double MOST_OVER_LEAD = 2.7;

  private static final double OVER_SLOPE = 3;
  private static final double USUAL_OF_LEAD = 1.2;
  private static final double GAIN_BONUS = 0.7;
  private static final int FEWEST_SUNG = 6;
  private static final double NO_LESS = 0.5;

  private final double lagSeconds;
  private final boolean byLead;
  private final double[] mix;
  private final double[] lead;
  private final double[] gain;
  private final boolean[] sung;
  private final boolean[] begins;

  /**
   * @param byLead whether bands repeat themselves at the lag, so that only the lead can tell
   * @param mix how far the mix stands out at the lag, moment by moment; about 1 by chance
   * @param lead the same of the lead's partials; 0 where no lead is
   * @param gain level of the lead's partials after the lag; 0 where no lead is
   * @param sung where a lead is
   * @param begins where any note begins
   */
  DelayTrack(
      double lagSeconds,
      boolean byLead,
      double[] mix,
      double[] lead,
      double[] gain,
      boolean[] sung,
      boolean[] begins) {
    this.lagSeconds = lagSeconds;
    this.byLead = byLead;
    this.mix = mix.clone();
    this.lead = lead.clone();
    this.gain = gain.clone();
    this.sung = sung.clone();
    this.begins = begins.clone();
  }

  double lagSeconds() {
    return lagSeconds;
  }

  /** Moments from {@code from} up to {@code to} in which the lag holds, and what they say. */
  record Stretch(int from, int to, double evidence) {}

  /** The stretches of the best path; none where all of them together say too little. */
  List<Stretch> stretches(Settings settings) {
    if (!byLead && quantile(mix, 0.25) > settings.mixUsual) {
      return List.of();
    }
    double[] evidence = byLead ? leadEvidence(settings) : mixEvidence(settings);
    List<Stretch> found = path(evidence, settings.enter);
    double total = found.stream().mapToDouble(s -> s.evidence - settings.enter - LEAVE).sum();
    return total >= (byLead ? settings.leastLead : settings.leastMix) ? found : List.of();
  }

  private double[] mixEvidence(Settings settings) {
    double[] evidence = new double[mix.length];
    for (int i = 0; i < mix.length; i++) {
      double ofMix = MIX_SLOPE * log(mix[i], settings.mix);
      double added =
          sung[i] ? Math.max(LEAST_ADDED, Math.min(MOST_ADDED, log(lead[i], settings.lead))) : 0;
      evidence[i] = Math.max(LEAST_OF_MIX, Math.min(MOST_OF_MIX, ofMix)) + added;
      evidence[i] = begins[i] || sung[i] ? evidence[i] : Math.min(NOTHING_BEGINS, evidence[i]);
    }
    return evidence;
  }

  private static double log(double standsOut, double limit) {
    return Math.log(Math.max(NO_LESS, standsOut) / limit);
  }

  /** The lead and the mix must both stand out from what is usual, and the copy be weaker. */
  private double[] leadEvidence(Settings settings) {
    double[] evidence = new double[mix.length];
    Arrays.fill(evidence, UNSUNG);
    double[] leads =
        IntStream.range(0, mix.length).filter(i -> sung[i]).mapToDouble(i -> lead[i]).toArray();
    if (leads.length < FEWEST_SUNG) {
      return evidence;
    }
    double usualLead = Math.max(1, quantile(leads, 0.4) / USUAL_OF_LEAD);
    double usualMix = Math.sqrt(Math.max(1, quantile(mix, 0.3)));
    for (int i = 0; i < mix.length; i++) {
      if (sung[i]) {
        double standsOut =
            Math.min(
                log(mix[i], settings.lead * usualMix), log(lead[i], settings.lead * usualLead));
        double over = Math.max(NO_LESS, mix[i]) / Math.max(NO_LESS, lead[i]);
        standsOut -= OVER_SLOPE * Math.max(0, Math.log(over / MOST_OVER_LEAD));
        double off = (gain[i] - settings.gain) / settings.gainWidth;
        double weaker = Math.max(LEAST_OF_MIX, GAIN_BONUS - off * off / 2);
        evidence[i] =
            Math.max(LEAST_OF_LEAD, Math.min(MOST_OF_LEAD, LEAD_SLOPE * standsOut + weaker));
      }
    }
    return evidence;
  }

  private static List<Stretch> path(double[] evidence, double enter) {
    int count = evidence.length;
    boolean[] left = new boolean[count];
    boolean[] entered = new boolean[count];
    double without = 0;
    double with = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < count; i++) {
      left[i] = with - LEAVE > without;
      entered[i] = without - enter > with;
      double nextWithout = Math.max(without, with - LEAVE);
      with = Math.max(with, without - enter) + evidence[i];
      without = nextWithout;
    }
    List<Stretch> stretches = new ArrayList<>();
    boolean on = with - LEAVE > without;
    int end = count;
    double sum = 0;
    for (int i = count - 1; i >= 0; i--) {
      if (on) {
        sum += evidence[i];
        if (entered[i]) {
          stretches.add(0, new Stretch(i, end, sum));
          on = false;
        }
      } else if (left[i]) {
        on = true;
        end = i;
        sum = 0;
      }
    }
    return stretches;
  }

  private static double quantile(double[] values, double share) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted.length == 0 ? 0 : sorted[(int) (share * (sorted.length - 1))];
  }
}
