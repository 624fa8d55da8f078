package undersong.bench.metrics;

import java.util.Arrays;

/**
 * Pitch over time, one voice: rising times with a frequency each. 0 or less = unvoiced; a negative
 * value carries a guess of the pitch all the same.
 */
public final class PitchCurve {
  private static final double CENTS_REFERENCE_HZ = 10;
  private final double[] seconds;
  private final double[] hertz;

  /**
   * @param seconds copied; rising
   * @param hertz copied; as many
   */
  public PitchCurve(double[] seconds, double[] hertz) {
    if (seconds.length != hertz.length) {
      throw new IllegalArgumentException(
          "A pitch curve of %d times and %d frequencies needs as many of both."
              .formatted(seconds.length, hertz.length));
    }
    boolean lateStart = seconds.length > 0 && seconds[0] > 0;
    int lead = lateStart ? 1 : 0;
    this.seconds = new double[seconds.length + lead];
    this.hertz = new double[hertz.length + lead];
    System.arraycopy(seconds, 0, this.seconds, lead, seconds.length);
    System.arraycopy(hertz, 0, this.hertz, lead, hertz.length);
  }

  public int frames() {
    return seconds.length;
  }

  public double[] toSeconds() {
    return seconds.clone();
  }

  boolean voicedAt(int frame) {
    return hertz[frame] > 0;
  }

  /** Cents above 10 Hz whether voiced or not; 0 where there is no pitch at all. */
  double centsAt(int frame) {
    double magnitude = Math.abs(hertz[frame]);
    return magnitude == 0 ? 0 : 1200 * Math.log(magnitude / CENTS_REFERENCE_HZ) / Math.log(2);
  }

  /**
   * Cents and voicing at other times: linear in cents, the last pitch held through zeros; unvoiced
   * outside the curve.
   *
   * @param centsOut written, length of {@code times}
   * @param voicedOut written, length of {@code times}
   */
  void resample(double[] times, double[] centsOut, boolean[] voicedOut) {
    double[] held = new double[seconds.length];
    for (int i = 0; i < held.length; i++) {
      double cents = centsAt(i);
      held[i] = cents == 0 && i > 0 ? held[i - 1] : cents;
    }
    for (int k = 0; k < times.length; k++) {
      int found = Arrays.binarySearch(seconds, times[k]);
      int before = found >= 0 ? found : -found - 2;
      boolean inside = before >= 0 && times[k] <= seconds[seconds.length - 1] + 1e-9;
      centsOut[k] = 0;
      voicedOut[k] = false;
      if (inside) {
        voicedOut[k] = hertz[before] > 0;
        if (centsAt(before) != 0) {
          int after = Math.min(before + 1, held.length - 1);
          double span = seconds[after] - seconds[before];
          double share = span > 0 ? (times[k] - seconds[before]) / span : 0;
          centsOut[k] = held[before] + share * (held[after] - held[before]);
        }
      }
    }
  }
}
