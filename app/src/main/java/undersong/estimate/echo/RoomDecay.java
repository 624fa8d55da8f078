package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * How long a room falls, by what each decay time that was tried misses in each band. All bands of a
 * room are taken to fall about alike, each at its own usual distance; one band may be misled, so
 * what it can speak against a decay is limited. Other sections have a smaller say, since most songs
 * stand in one room.
 */
public final class RoomDecay {
  private static final double LOWEST_OCTAVES = -2.6;
  private static final double STEP_OCTAVES = 0.05;
  private static final int STEPS = 93;

  /** Before anything is heard: rooms and plates of music, common practice, no source. */
  private static final double USUAL_OCTAVES = -0.2;

  private static final double USUAL_SPREAD = 0.8;

  private final Settings settings;

  /**
   * Found as those of {@link RoomTeller} are.
   *
   * @param offsets octaves by which the decay that fits best lies above that of the middle band,
   *     band by band
   * @param trusts weights of the bands
   * @param misfitWeight of a unit of misfit
   * @param mostMisfit what one band can say against a decay
   * @param songShare what the other sections weigh against the section itself, 0 to 1
   * @param bandSpread octaves by which a band may leave its usual distance
   */
  public record Settings(
      List<Double> offsets,
      List<Double> trusts,
      double misfitWeight,
      double mostMisfit,
      double songShare,
      double bandSpread) {
    public static final Settings STANDARD =
        new Settings(List.of(0.4, 0.4, 0.28, -0.7), List.of(1.0, 0.7, 0.7, 0.5), 0.1, 2, 0.1, 0.3);

    public Settings {
      offsets = List.copyOf(offsets);
      trusts = List.copyOf(trusts);
    }
  }

  /**
   * One section.
   *
   * @param octaves of the middle band, above one second
   * @param bandOctaves of each band, as one number above and the usual distances have it, and by
   *     what the band says itself
   */
  record Expected(double octaves, List<Double> bandOctaves, List<Double> bandSpreads) {}

  RoomDecay(Settings settings) {
    this.settings = settings;
  }

  /**
   * @param here of one section, band by band
   * @param everywhere of all sections, this one too
   */
  Expected of(List<LaggingSound.Fit> here, List<List<LaggingSound.Fit>> everywhere) {
    double[][] against = new double[here.size()][];
    double[] all = new double[STEPS];
    Arrays.setAll(all, i -> Math.pow((octaves(i) - USUAL_OCTAVES) / USUAL_SPREAD, 2) / 2);
    for (int b = 0; b < against.length; b++) {
      against[b] = against(b, here, everywhere);
      for (int i = 0; i < STEPS; i++) {
        all[i] += against[b][i];
      }
    }
    List<Double> octaves = new ArrayList<>();
    List<Double> spreads = new ArrayList<>();
    for (double[] band : against) {
      double[] others = all.clone();
      Arrays.setAll(others, i -> all[i] - band[i]);
      double[] own = likelihood(band);
      double[] chances = widened(likelihood(others));
      Arrays.setAll(chances, i -> chances[i] * own[i]);
      double mean = mean(chances);
      octaves.add(mean);
      spreads.add(spread(chances, mean));
    }
    return new Expected(mean(likelihood(all)), octaves, spreads);
  }

  /** The decay that was tried which comes nearest in one band. */
  int tried(double octaves, int band) {
    double[] all = LaggingSound.DECAY_OCTAVES;
    double index = (octaves + settings.offsets.get(band) - all[0]) / (all[1] - all[0]);
    return (int) Math.max(0, Math.min(all.length - 1, Math.rint(index)));
  }

  /** What speaks against each decay of the middle band. */
  private double[] against(
      int band, List<LaggingSound.Fit> here, List<List<LaggingSound.Fit>> everywhere) {
    double[] misfit = new double[LaggingSound.DECAY_OCTAVES.length];
    for (List<LaggingSound.Fit> section : everywhere) {
      double share = section == here ? 1 : settings.songShare;
      List<Double> its = section.get(band).misfit();
      for (int d = 0; d < its.size(); d++) {
        misfit[d] += share * its.get(d);
      }
    }
    double best = Arrays.stream(misfit).min().orElse(0);
    double[] against = new double[STEPS];
    for (int i = 0; i < STEPS; i++) {
      double missed = at(misfit, octaves(i) + settings.offsets.get(band)) - best;
      against[i] =
          settings.trusts.get(band)
              * settings.mostMisfit
              * (1 - Math.exp(-settings.misfitWeight * missed / settings.mostMisfit));
    }
    return against;
  }

  /** Between the decays that were tried on a straight line; beyond them as at the last. */
  private static double at(double[] misfit, double octaves) {
    double[] tried = LaggingSound.DECAY_OCTAVES;
    double index = (octaves - tried[0]) / (tried[1] - tried[0]);
    double inside = Math.max(0, Math.min(tried.length - 1, index));
    int low = Math.min(tried.length - 2, (int) inside);
    return misfit[low] + (inside - low) * (misfit[low + 1] - misfit[low]);
  }

  private static double[] likelihood(double[] against) {
    double least = Arrays.stream(against).min().orElse(0);
    return Arrays.stream(against).map(a -> Math.exp(least - a)).toArray();
  }

  /** Each decay lends its chance to those about it. */
  private double[] widened(double[] chances) {
    double[] widened = new double[STEPS];
    for (int i = 0; i < STEPS; i++) {
      for (int j = 0; j < STEPS; j++) {
        double far = STEP_OCTAVES * (i - j) / settings.bandSpread;
        widened[i] += chances[j] * Math.exp(-far * far / 2);
      }
    }
    return widened;
  }

  private static double mean(double[] chances) {
    double sum = 0;
    double mass = 0;
    for (int i = 0; i < STEPS; i++) {
      sum += chances[i] * octaves(i);
      mass += chances[i];
    }
    return sum / mass;
  }

  private static double spread(double[] chances, double mean) {
    double sum = 0;
    double mass = 0;
    for (int i = 0; i < STEPS; i++) {
      sum += chances[i] * Math.pow(octaves(i) - mean, 2);
      mass += chances[i];
    }
    return Math.sqrt(sum / mass);
  }

  private static double octaves(int step) {
    return LOWEST_OCTAVES + STEP_OCTAVES * step;
  }
}
