package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import undersong.bench.metrics.DecayTime;
import undersong.reading.HearingBand;

/**
 * A room: four comb filters with damped feedback, then two all-pass filters, each channel with
 * delays of its own.
 *
 * <p>Source: M. R. Schroeder, "Natural Sounding Artificial Reverberation", J. AES 10(3), 1962. The
 * delays are ours.
 */
final class Reverb {
  private static final double[] LEFT_COMBS = {0.0311, 0.0357, 0.0413, 0.0449};
  private static final double[] RIGHT_COMBS = {0.0323, 0.0367, 0.0401, 0.0461};

  private Reverb() {}

  /**
   * @param x read
   * @param decaySeconds time to fall by 60 dB
   */
  static float[] channel(float[] x, boolean left, double decaySeconds) {
    float[] out = new float[x.length];
    for (double delay : left ? LEFT_COMBS : RIGHT_COMBS) {
      comb(x, out, (int) (delay * Wave.RATE_HZ), (float) Math.pow(10, -3 * delay / decaySeconds));
    }
    allPass(out, (int) (0.0051 * Wave.RATE_HZ));
    allPass(out, (int) (0.0017 * Wave.RATE_HZ));
    return out;
  }

  /**
   * Time to fall by 60 dB in each {@link HearingBand} (0 below 80 Hz and above 8 kHz, which nobody
   * is asked for): of the room's answer to an impulse, through that band, both channels together.
   */
  static List<Double> decaySeconds(double decaySeconds) {
    List<Double> decays = new ArrayList<>();
    for (HearingBand band : HearingBand.values()) {
      boolean asked = band != HearingBand.SUB && band != HearingBand.HIGH;
      decays.add(asked ? decaySeconds(decaySeconds, band) : 0);
    }
    return decays;
  }

  private static double decaySeconds(double decaySeconds, HearingBand band) {
    double[] energy = new double[(int) ((1.2 * decaySeconds + 0.3) * Wave.RATE_HZ)];
    for (boolean left : new boolean[] {true, false}) {
      float[] impulse = new float[energy.length];
      impulse[0] = 1;
      float[] answer = channel(impulse, left, decaySeconds);
      for (int pass = 0; pass < 2; pass++) {
        Filters.highPass(answer, band.bottomHz());
        Filters.lowPass(answer, band.topHz());
      }
      for (int i = 0; i < energy.length; i++) {
        energy[i] += answer[i] * answer[i];
      }
    }
    return DecayTime.seconds(energy, Wave.RATE_HZ);
  }

  private static void comb(float[] x, float[] out, int delay, float feedback) {
    float[] line = new float[delay];
    float damped = 0;
    for (int i = 0; i < x.length; i++) {
      float old = line[i % delay];
      damped = 0.6f * old + 0.4f * damped;
      line[i % delay] = x[i] + feedback * damped;
      out[i] += 0.25f * old;
    }
  }

  private static void allPass(float[] x, int delay) {
    float[] line = new float[delay];
    for (int i = 0; i < x.length; i++) {
      float old = line[i % delay];
      float in = x[i] + 0.6f * old;
      line[i % delay] = in;
      x[i] = old - 0.6f * in;
    }
  }
}
