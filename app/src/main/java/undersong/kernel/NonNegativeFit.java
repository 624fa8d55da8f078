package undersong.kernel;

/**
 * Explains a spectrum as a sum of templates with weights that are not negative, by multiplicative
 * updates of the squared error.
 *
 * <p>Source: D. D. Lee and H. S. Seung, "Algorithms for Non-negative Matrix Factorization", NIPS
 * 2000, with the templates held fixed; a constant on the right-hand side keeps weights sparse.
 */
public final class NonNegativeFit {
  private static final float FLOOR = 1e-9f;

  private NonNegativeFit() {}

  /** Inner products of all templates with each other. */
  public static float[][] gram(float[][] templates) {
    int n = templates.length;
    float[][] gram = new float[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = 0;
        for (int b = 0; b < templates[i].length; b++) {
          sum += (double) templates[i][b] * templates[j][b];
        }
        gram[i][j] = (float) sum;
        gram[j][i] = (float) sum;
      }
    }
    return gram;
  }

  /**
   * One fit.
   *
   * @param templates read, {@code [template][bin]}
   * @param gram read, from {@link #gram}
   * @param spectrum read, one value per bin, not negative
   * @param sparsity taken off each template's match; 0 for none
   * @param rounds of updating
   * @param weights written, one per template; all 0 where the spectrum is 0
   */
  public static void fit(
      float[][] templates,
      float[][] gram,
      float[] spectrum,
      float sparsity,
      int rounds,
      float[] weights) {
    int n = templates.length;
    float[] match = new float[n];
    for (int i = 0; i < n; i++) {
      float[] template = templates[i];
      float sum = 0;
      for (int b = 0; b < spectrum.length; b++) {
        sum += template[b] * spectrum[b];
      }
      match[i] = Math.max(0, sum - sparsity);
      weights[i] = match[i] / Math.max(FLOOR, gram[i][i]);
    }
    float[] explained = new float[n];
    for (int round = 0; round < rounds; round++) {
      java.util.Arrays.fill(explained, FLOOR);
      for (int i = 0; i < n; i++) {
        float weight = weights[i];
        if (weight > FLOOR) {
          float[] row = gram[i];
          for (int j = 0; j < n; j++) {
            explained[j] += weight * row[j];
          }
        }
      }
      for (int j = 0; j < n; j++) {
        weights[j] *= match[j] / explained[j];
      }
    }
  }
}
