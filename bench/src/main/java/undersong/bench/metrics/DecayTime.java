package undersong.bench.metrics;

/**
 * How long a room takes to fall by 60 dB, read off its impulse response.
 *
 * <p>Source: ISO 3382-1, from memory: the decay curve is the energy of the impulse response
 * integrated backwards (M. R. Schroeder, "New Method of Measuring Reverberation Time", JASA 37,
 * 1965); a line is fitted from 5 to 35 dB below its start (T30) and extended to 60 dB.
 */
public final class DecayTime {
  private static final double TOP_DB = -5;
  private static final double BOTTOM_DB = -35;

  private DecayTime() {}

  /**
   * @param energy read: squares of an impulse response, which must have fallen by more than 35 dB
   *     before its end
   * @return seconds; NaN where it has not fallen that far, or is silent
   */
  public static double seconds(double[] energy, double samplesPerSecond) {
    double[] left = new double[energy.length];
    double sum = 0;
    for (int i = energy.length - 1; i >= 0; i--) {
      sum += energy[i];
      left[i] = sum;
    }
    double n = 0;
    double x = 0;
    double y = 0;
    double xx = 0;
    double xy = 0;
    double lowest = 0;
    for (int i = 0; i < left.length && left[i] > 0; i++) {
      double db = 10 * Math.log10(left[i] / sum);
      lowest = db;
      if (db <= TOP_DB && db >= BOTTOM_DB) {
        double t = i / samplesPerSecond;
        n++;
        x += t;
        y += db;
        xx += t * t;
        xy += t * db;
      }
    }
    double slope = (n * xy - x * y) / (n * xx - x * x);
    return lowest > BOTTOM_DB || !(slope < 0) ? Double.NaN : -60 / slope;
  }
}
