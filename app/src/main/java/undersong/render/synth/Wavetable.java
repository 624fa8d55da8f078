package undersong.render.synth;

/** One period of a tone as a table, made of harmonics that all stay below the Nyquist limit. */
final class Wavetable {
  static final int SIZE = 2048;
  private static final float[] SINE = sine();

  private final float[] wave = new float[SIZE + 1];

  private Wavetable() {}

  /**
   * Adds up sines and scales the sum to a root mean square of 0.25.
   *
   * @param amplitudes read; entry n belongs to harmonic n + 1
   */
  static Wavetable of(double[] amplitudes) {
    Wavetable table = new Wavetable();
    double power = 0;
    for (double amplitude : amplitudes) {
      power += amplitude * amplitude / 2;
    }
    double scale = power > 0 ? 0.25 / StrictMath.sqrt(power) : 0;
    for (int n = 1; n <= amplitudes.length; n++) {
      float amplitude = (float) (amplitudes[n - 1] * scale);
      if (amplitude == 0) {
        continue;
      }
      // A phase that runs with the square of the number keeps the sum flat (Schroeder 1970).
      int place = (int) (((long) n * n * SIZE / (2L * amplitudes.length)) % SIZE);
      for (int i = 0; i < SIZE; i++) {
        table.wave[i] += amplitude * SINE[place];
        place = (place + n) & (SIZE - 1);
      }
    }
    table.wave[SIZE] = table.wave[0];
    return table;
  }

  /** Value at a phase of 0 to 1 period, linear between entries. */
  float at(double phase) {
    double place = phase * SIZE;
    int i = (int) place;
    float rest = (float) (place - i);
    return wave[i] + rest * (wave[i + 1] - wave[i]);
  }

  /** Sine of a phase given in periods, at least 0, from the same kind of table. */
  static float sine(double phase) {
    double place = (phase - (long) phase) * SIZE;
    int i = (int) place;
    float rest = (float) (place - i);
    return SINE[i] + rest * (SINE[i + 1] - SINE[i]);
  }

  private static float[] sine() {
    float[] sine = new float[SIZE + 1];
    for (int i = 0; i <= SIZE; i++) {
      sine[i] = (float) StrictMath.sin(2 * StrictMath.PI * i / SIZE);
    }
    return sine;
  }
}
