package undersong.bench.metrics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** When chords arrive, and whether a missing third is told. Our own measures. */
public final class HarmonyMetrics {
  private HarmonyMetrics() {}

  /**
   * @param medianBeats median distance of estimated and true onset of the same change, in beats
   * @param worstBeats its 90th percentile
   * @param earlyTold of the changes that come before their beat, the share whose onset was placed
   *     nearer to the true one than to the beat; NaN where none comes early
   */
  public record Arrival(double medianBeats, double worstBeats, double earlyTold) {}

  /** One true change: when it comes, and the beat it belongs to. */
  public record Change(double seconds, double beatSeconds) {
    boolean early() {
      return beatSeconds - seconds > 0.03;
    }
  }

  /**
   * @param changes the true changes
   * @param estimated times at which the estimate changes
   * @param beatSeconds length of a beat; estimates further than one beat away are another change
   */
  public static Arrival arrival(List<Change> changes, double[] estimated, double beatSeconds) {
    List<Double> errors = new ArrayList<>();
    int early = 0;
    int told = 0;
    for (Change change : changes) {
      double[] near =
          Arrays.stream(estimated)
              .filter(e -> Math.abs(e - change.seconds()) <= beatSeconds)
              .toArray();
      double error = Double.POSITIVE_INFINITY;
      double offBeat = Double.POSITIVE_INFINITY;
      for (double e : near) {
        if (Math.abs(e - change.seconds()) < error) {
          error = Math.abs(e - change.seconds());
          offBeat = Math.abs(e - change.beatSeconds());
        }
      }
      if (near.length > 0) {
        errors.add(error / beatSeconds);
      }
      if (change.early()) {
        early++;
        told += error < offBeat ? 1 : 0;
      }
    }
    double[] all = errors.stream().mapToDouble(Double::doubleValue).toArray();
    return new Arrival(
        Statistics.median(all),
        Statistics.quantile(all, 0.9),
        early == 0 ? Double.NaN : (double) told / early);
  }

  /**
   * @param told of reference time with an open fifth or a bass alone, the share so labeled; NaN
   *     where there is none
   * @param falselyOpen of reference time with a third, the share wrongly called open
   */
  public record OpenHarmony(double told, double falselyOpen) {}

  public static OpenHarmony openHarmony(
      List<Timed<ChordCode>> reference, List<Timed<ChordCode>> estimated) {
    return new OpenHarmony(
        Overlap.share(
            reference, estimated, ChordCode.NONE, (r, e) -> isOpen(r) ? (isOpen(e) ? 1 : 0) : -1),
        Overlap.share(
            reference,
            estimated,
            ChordCode.NONE,
            (r, e) -> r.hasThird() ? (isOpen(e) ? 1 : 0) : -1));
  }

  /** Root, or root and fifth, and nothing else. */
  static boolean isOpen(ChordCode chord) {
    return chord.sounds() && (chord.bits() & ~(1 | 1 << 7)) == 0;
  }
}
