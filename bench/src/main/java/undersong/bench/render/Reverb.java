package undersong.bench.render;

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
