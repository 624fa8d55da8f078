package undersong.estimate.meter;

/** After how many beats the rhythm returns, beat by beat. */
final class Recurrence {
  private Recurrence() {}

  /**
   * How alike the strokes of beats that lie {@code lag} apart are, once what all beats share is
   * taken away: 1 alike, 0 unrelated, smoothed over some bars.
   *
   * @return one value a beat
   */
  static double[] of(BarAccents accents, int lag) {
    int beats = accents.beats();
    int width = BarAccents.PLACES * BarAccents.BANDS;
    float[] rest = accents.strengths().clone();
    float[] mean = new float[width];
    for (int i = 0; i < rest.length; i++) {
      mean[i % width] += rest[i] / Math.max(1, beats);
    }
    for (int i = 0; i < rest.length; i++) {
      rest[i] -= mean[i % width];
    }
    double[] products = new double[beats + 1];
    double[] squares = new double[beats + 1];
    for (int beat = 0; beat < beats; beat++) {
      double product = 0;
      double square = 0;
      for (int i = beat * width; beat >= lag && i < (beat + 1) * width; i++) {
        product += rest[i] * rest[i - lag * width];
        square += (rest[i] * rest[i] + rest[i - lag * width] * rest[i - lag * width]) / 2;
      }
      products[beat + 1] = products[beat] + product;
      squares[beat + 1] = squares[beat] + square;
    }
    double[] likeness = new double[beats];
    int reach = 8;
    for (int beat = 0; beat < beats; beat++) {
      int from = Math.max(0, beat - reach);
      int to = Math.min(beats, beat + lag + reach);
      likeness[beat] =
          (products[to] - products[from]) / (squares[to] - squares[from] + 0.05 * (to - from));
    }
    return likeness;
  }
}
