package undersong.estimate.meter;

/**
 * What speaks for a bar beginning on a beat, as numbers: the strokes on it and around it against
 * the song's own mean, and how the sound changes there.
 */
final class DownbeatTraits {
  private static final int ON_REACH = 4;
  private static final int BETWEEN_REACH = 2;
  private static final int HALF = BarAccents.PLACES / 2;
  static final int COUNT = (BarAccents.BANDS - 1) * (2 * ON_REACH + 1 + 2 * BETWEEN_REACH) + 2 + 4;

  private DownbeatTraits() {}

  /**
   * @return one row a beat, {@link #COUNT} numbers each
   */
  static double[][] of(BarAccents accents) {
    int beats = accents.beats();
    double[][] traits = new double[beats][COUNT];
    int column = 0;
    for (int band = 1; band < BarAccents.BANDS; band++) {
      double[] on = standardized(accents, 0, band);
      double[] between = standardized(accents, HALF, band);
      for (int reach = -ON_REACH; reach <= ON_REACH; reach++) {
        enter(traits, column++, on, reach);
      }
      for (int reach = -BETWEEN_REACH; reach < BETWEEN_REACH; reach++) {
        enter(traits, column++, between, reach);
      }
    }
    double[] change = new double[beats];
    for (int beat = 0; beat < beats; beat++) {
      change[beat] = accents.changeAt(beat);
      traits[beat][column] = change[beat] / 3;
      traits[beat][column + 1] = accents.brightnessAt(beat) / 5;
      traits[beat][column + 2] = isSummit(accents, beat) ? change[beat] / 3 : 0;
      traits[beat][column + 3] =
          Math.max(0, accents.brightnessAt(beat)) / 5 * accents.at(beat, 0, 3);
      traits[beat][column + 4] = accents.at(beat, 0, 1) * accents.at(beat, 0, 3);
      traits[beat][column + 5] = beat == 0 ? 1 : 0;
    }
    return traits;
  }

  private static boolean isSummit(BarAccents accents, int beat) {
    for (int other = Math.max(0, beat - 3); other < Math.min(accents.beats(), beat + 4); other++) {
      if (accents.changeAt(other) > accents.changeAt(beat)) {
        return false;
      }
    }
    return true;
  }

  private static void enter(double[][] traits, int column, double[] values, int reach) {
    for (int beat = 0; beat < values.length; beat++) {
      int other = beat + reach;
      traits[beat][column] = other >= 0 && other < values.length ? values[other] : 0;
    }
  }

  private static double[] standardized(BarAccents accents, int place, int band) {
    int beats = accents.beats();
    double[] values = new double[beats];
    double sum = 0;
    double squares = 0;
    for (int beat = 0; beat < beats; beat++) {
      values[beat] = accents.at(beat, place, band);
      sum += values[beat];
      squares += values[beat] * values[beat];
    }
    double mean = sum / Math.max(1, beats);
    double spread = Math.sqrt(Math.max(0, squares / Math.max(1, beats) - mean * mean)) + 0.1;
    for (int beat = 0; beat < beats; beat++) {
      values[beat] = (values[beat] - mean) / spread;
    }
    return values;
  }
}
