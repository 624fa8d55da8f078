package undersong.feature;

import undersong.kernel.Biquad;

/**
 * The K-weighting of loudness: a shelf for the head, then a high-pass.
 *
 * <p>Source: ITU-R BS.1770-4, tables 1 and 2 (coefficients at 48 kHz). Other rates get the same
 * analog filters, redesigned.
 */
final class KWeighting {
  static final int TABLE_HZ = 48_000;

  static final Biquad SHELF =
      new Biquad(
          1.53512485958697,
          -2.69169618940638,
          1.19839281085285,
          -1.69065929318241,
          0.73248077421585);

  static final Biquad HIGH_PASS = new Biquad(1, -2, 1, -1.99004745483398, 0.99007225036621);

  private KWeighting() {}

  static Biquad shelf(int sampleRateHz) {
    return sampleRateHz == TABLE_HZ ? SHELF : SHELF.redesigned(TABLE_HZ, sampleRateHz);
  }

  static Biquad highPass(int sampleRateHz) {
    return sampleRateHz == TABLE_HZ ? HIGH_PASS : HIGH_PASS.redesigned(TABLE_HZ, sampleRateHz);
  }
}
