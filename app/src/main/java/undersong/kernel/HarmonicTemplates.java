package undersong.kernel;

/**
 * What a harmonic sound looks like on a bank of triangular filters over Hann-windowed spectra: one
 * template per fundamental, computed from the window's main lobe, not measured.
 */
public final class HarmonicTemplates {
  private static final int LOBE_BINS = 3;

  private HarmonicTemplates() {}

  /**
   * Templates of sounds whose partial k has amplitude {@code decay^(k-1)}.
   *
   * @param fundamentalsHz read, one per template
   * @param decay amplitude ratio of neighboring partials, 0 to 1
   * @param partials number of partials; those above the highest filter are left out
   * @param centersHz read, rising: centers of the filters; each reaches one filter step to either
   *     side, at least one spectrum bin
   * @param windowSamples length of the Hann window
   * @param sampleRateHz of the audio
   * @return square root of the filtered power, {@code [fundamental][filter]}, not negative
   */
  public static float[][] magnitudes(
      double[] fundamentalsHz,
      double decay,
      int partials,
      double[] centersHz,
      int windowSamples,
      double sampleRateHz) {
    double spacingHz = sampleRateHz / windowSamples;
    double step = centersHz[1] / centersHz[0];
    double highest = centersHz[centersHz.length - 1];
    float[][] out = new float[fundamentalsHz.length][centersHz.length];
    for (int n = 0; n < out.length; n++) {
      double amplitude = 1;
      for (int k = 1; k <= partials && k * fundamentalsHz[n] < highest; k++, amplitude *= decay) {
        addPartial(out[n], k * fundamentalsHz[n], amplitude, centersHz, step, spacingHz);
      }
      for (int b = 0; b < centersHz.length; b++) {
        out[n][b] = (float) Math.sqrt(out[n][b]);
      }
    }
    return out;
  }

  private static void addPartial(
      float[] power, double hz, double amplitude, double[] centersHz, double step, double spacing) {
    int middle = (int) Math.round(hz / spacing);
    for (int bin = Math.max(0, middle - LOBE_BINS); bin <= middle + LOBE_BINS; bin++) {
      double lobe = hannLobe(bin - hz / spacing);
      double binPower = amplitude * amplitude * lobe * lobe;
      double binHz = bin * spacing;
      for (int b = 0; b < centersHz.length; b++) {
        double low = Math.min(centersHz[b] / step, centersHz[b] - spacing);
        double high = Math.max(centersHz[b] * step, centersHz[b] + spacing);
        if (binHz > low && binHz < high) {
          double weight =
              binHz <= centersHz[b]
                  ? (binHz - low) / (centersHz[b] - low)
                  : (high - binHz) / (high - centersHz[b]);
          power[b] += (float) (weight * binPower);
        }
      }
    }
  }

  /** Main lobe of the Hann window, 1 at its peak, by distance in spectrum bins. */
  private static double hannLobe(double bins) {
    double x = Math.abs(bins);
    if (x < 1e-9) {
      return 1;
    }
    if (Math.abs(x - 1) < 1e-9) {
      return 0.5;
    }
    return Math.sin(Math.PI * x) / (Math.PI * x * (1 - x * x));
  }
}
