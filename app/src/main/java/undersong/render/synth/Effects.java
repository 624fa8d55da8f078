package undersong.render.synth;

/** What is done to a sound after it is made. All work in place on arrays. */
public final class Effects {
  private static final int DUCK_FALL_SAMPLES = 350;
  private static final int DUCK_RETURN_SAMPLES = 13_000;
  private static final double DUCK_RETURN_SECONDS = 0.11;

  private Effects() {}

  /**
   * Gains of left and right for a place from -1 (left) to 1 (right): their squares always add up to
   * 1, so that a moved sound keeps its power.
   */
  public static double[] pan(double place) {
    double angle = (Math.max(-1, Math.min(1, place)) + 1) * StrictMath.PI / 4;
    return new double[] {StrictMath.cos(angle), StrictMath.sin(angle)};
  }

  public static double gain(double decibels) {
    return StrictMath.pow(10, decibels / 20);
  }

  /**
   * Copies of {@code source} at multiples of a lag, each weaker and duller than the one before,
   * added to {@code into}.
   *
   * @param source read
   */
  public static void echo(float[] source, float[] into, int lagSamples, double stepDecibels) {
    float gain = (float) gain(-Math.abs(stepDecibels));
    float dull = 0;
    float[] line = source.clone();
    for (int i = lagSamples; i < source.length; i++) {
      dull += 0.6f * (line[i - lagSamples] - dull);
      line[i] += gain * dull;
      into[i] += gain * dull;
    }
  }

  /**
   * Low pass of two poles whose corner slides from one frequency to another, evenly in octaves,
   * between two samples; before and after it rests.
   */
  public static void sweep(float[] x, double fromHz, double toHz, int firstSample, int lastSample) {
    StateVariableFilter filter = new StateVariableFilter(fromHz, 1.1 * fromHz);
    double octaves = StrictMath.log(toHz / fromHz) / StrictMath.log(2);
    for (int i = 0; i < x.length; i++) {
      if (i % 64 == 0) {
        double place = (double) (i - firstSample) / Math.max(1, lastSample - firstSample);
        double hertz = fromHz * StrictMath.pow(2, octaves * Math.max(0, Math.min(1, place)));
        filter.tune(hertz, 1.1 * hertz);
      }
      filter.step(x[i]);
      x[i] = (float) filter.low();
    }
  }

  /** Dips by so many decibels at each hit and comes back within a quarter of a second. */
  public static void duck(float[] x, int[] hitSamples, double depthDecibels) {
    float[] shape = new float[DUCK_FALL_SAMPLES + DUCK_RETURN_SAMPLES];
    Falling back = new Falling(DUCK_RETURN_SECONDS);
    for (int i = 0; i < shape.length; i++) {
      shape[i] = i < DUCK_FALL_SAMPLES ? (float) i / DUCK_FALL_SAMPLES : (float) back.next();
    }
    float[] dip = new float[x.length];
    for (int hit : hitSamples) {
      int first = hit - DUCK_FALL_SAMPLES;
      for (int i = Math.max(0, -first); i < shape.length && first + i < x.length; i++) {
        dip[first + i] = Math.max(dip[first + i], shape[i]);
      }
    }
    float depth = 1 - (float) gain(-Math.abs(depthDecibels));
    for (int i = 0; i < x.length; i++) {
      x[i] *= 1 - depth * dip[i];
    }
  }

  /** Bends the sound like an overdriven amplifier and takes the fizz off (one pole at 4.5 kHz). */
  public static void drive(float[] x, double amount) {
    float smooth = 0;
    for (int i = 0; i < x.length; i++) {
      float y = (float) (x[i] * amount);
      float bent = y / (1 + Math.abs(y));
      smooth += 0.47f * (bent - smooth);
      x[i] = 0.45f * smooth;
    }
  }

  /**
   * Keeps both channels below a ceiling without bending the wave: the gain is the smallest that any
   * sample within the look-ahead asks for, smoothed by a running mean of the same length, so the
   * ceiling holds for every sample.
   */
  public static void limit(float[] left, float[] right, double ceiling, int lookAheadSamples) {
    int n = left.length;
    float[] wanted = new float[n];
    for (int i = 0; i < n; i++) {
      float peak = Math.max(Math.abs(left[i]), Math.abs(right[i]));
      wanted[i] = peak > ceiling ? (float) (ceiling / peak) : 1f;
    }
    float[] least = runningMinimum(wanted, lookAheadSamples);
    double sum = 0;
    for (int i = 0; i < n + lookAheadSamples; i++) {
      sum += i < n ? least[i] : 1;
      if (i > 2 * lookAheadSamples) {
        sum -= least[i - 2 * lookAheadSamples - 1];
      }
      int at = i - lookAheadSamples;
      if (at >= 0) {
        int count = Math.min(i + 1, 2 * lookAheadSamples + 1);
        float gain = (float) (sum / count);
        left[at] *= gain;
        right[at] *= gain;
      }
    }
  }

  /** Minimum over [i - reach, i + reach], in one pass with a queue of candidates. */
  private static float[] runningMinimum(float[] x, int reach) {
    int n = x.length;
    float[] out = new float[n];
    int[] queue = new int[n];
    int head = 0;
    int tail = 0;
    for (int i = 0; i < n + reach; i++) {
      if (i < n) {
        while (tail > head && x[queue[tail - 1]] >= x[i]) {
          tail--;
        }
        queue[tail++] = i;
      }
      int at = i - reach;
      if (at >= 0) {
        while (queue[head] < at - reach) {
          head++;
        }
        out[at] = x[queue[head]];
      }
    }
    return out;
  }
}
