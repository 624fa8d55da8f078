package undersong.kernel;

/**
 * Triangular filters on a power spectrum, evenly spaced on a logarithmic frequency axis: filter b
 * has its top at {@code lowestHz * 2^((b + first) / perOctave)} and its feet on its neighbors'
 * tops, or one spectrum bin away where that is wider. Immutable.
 */
public final class TriangleBank {
  private final int[] starts;
  private final float[][] weights;

  /**
   * @param windowSamples length of the frames whose spectra are filtered
   * @param first number of the first filter, counted from the one at {@code lowestHz}
   */
  public TriangleBank(
      int windowSamples, int sampleRateHz, double lowestHz, int perOctave, int filters, int first) {
    starts = new int[filters];
    weights = new float[filters][];
    double binHz = (double) sampleRateHz / windowSamples;
    int last = windowSamples / 2;
    for (int b = 0; b < filters; b++) {
      double center = lowestHz * Math.pow(2, (double) (b + first) / perOctave);
      double low = Math.min(center * Math.pow(2, -1.0 / perOctave), center - binHz);
      double high = Math.max(center * Math.pow(2, 1.0 / perOctave), center + binHz);
      int from = Math.max(0, (int) Math.ceil(low / binHz));
      int to = Math.min(last, (int) Math.floor(high / binHz));
      starts[b] = from;
      weights[b] = new float[Math.max(0, to - from + 1)];
      for (int k = from; k <= to; k++) {
        double hz = k * binHz;
        double weight = Math.min((hz - low) / (center - low), (high - hz) / (high - center));
        weights[b][k - from] = (float) Math.max(0, weight);
      }
    }
  }

  public int filters() {
    return starts.length;
  }

  /**
   * {@code out[at + b] = ln(1 + gain * sqrt(sum over k of weight[b][k] * power[k]))}.
   *
   * @param power read, as long as the spectrum
   * @param out written from {@code at}, {@link #filters()} values
   */
  public void logMagnitudes(float[] power, double gain, float[] out, int at) {
    for (int b = 0; b < starts.length; b++) {
      float[] weight = weights[b];
      int start = starts[b];
      float sum = 0;
      for (int k = 0; k < weight.length; k++) {
        sum += weight[k] * power[start + k];
      }
      out[at + b] = (float) Math.log(1 + gain * Math.sqrt(sum));
    }
  }
}
