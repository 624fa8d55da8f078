package undersong.estimate.beat;

/**
 * How the beat divides: where between the beats strokes fall.
 *
 * @param tatumsPerBeat 2, 3 or 4
 * @param swingRatio first eighth over second, 1 where they are even
 */
record BeatDivision(int tatumsPerBeat, double swingRatio) {
  private static final int BINS = 48;
  private static final double WEAKEST_STROKE = 0.12;
  private static final double LEAST_SHARE_OF_THIRDS = 0.3;
  private static final double LEAST_SHARE_OF_QUARTERS = 0.3;
  private static final double LATEST_EVEN_EIGHTH = 0.555;
  private static final BeatDivision EVEN = new BeatDivision(2, 1);

  /**
   * @param strengths beat strength on each frame
   * @param beatFrames fractional frames of the beats
   */
  static BeatDivision of(float[] strengths, double[] beatFrames) {
    double[] mass = positions(strengths, beatFrames);
    double between = mass(mass, 0.15, 0.85);
    if (between < 1e-3) {
      return EVEN;
    }
    double quarters = mass(mass, 0.20, 0.29) + mass(mass, 0.71, 0.80);
    double early = mass(mass, 0.29, 0.38);
    double late = mass(mass, 0.62, 0.71);
    double even = mass(mass, 0.45, 0.55);
    double swung = mass(mass, LATEST_EVEN_EIGHTH, 0.71);
    if (swung > 1.2 * even && swung + early > quarters) {
      double ratio = ratio(mass);
      boolean triplets = early > LEAST_SHARE_OF_THIRDS * late;
      return triplets
          ? new BeatDivision(3, early > 0.6 * late ? 1 : ratio)
          : new BeatDivision(2, ratio);
    }
    if (early + late > 1.5 * even && early + late > 1.5 * quarters) {
      return new BeatDivision(3, 1);
    }
    return quarters > LEAST_SHARE_OF_QUARTERS * between ? new BeatDivision(4, 1) : EVEN;
  }

  /** Strength of the strokes by their place in the beat, the beat itself being bin 0. */
  private static double[] positions(float[] strengths, double[] beatFrames) {
    double[] mass = new double[BINS];
    int beat = 0;
    int last = Math.min(strengths.length - 1, (int) beatFrames[beatFrames.length - 1]);
    for (int i = Math.max(1, (int) Math.ceil(beatFrames[0])); i < last; i++) {
      float here = strengths[i];
      if (here < WEAKEST_STROKE || here < strengths[i - 1] || here <= strengths[i + 1]) {
        continue;
      }
      double bend = strengths[i - 1] - 2 * here + strengths[i + 1];
      double at = bend < 0 ? i + 0.5 * (strengths[i - 1] - strengths[i + 1]) / bend : i;
      while (beat + 2 < beatFrames.length && beatFrames[beat + 1] <= at) {
        beat++;
      }
      double place = (at - beatFrames[beat]) / (beatFrames[beat + 1] - beatFrames[beat]);
      mass[Math.floorMod((int) Math.round(place * BINS), BINS)] += here;
    }
    return mass;
  }

  private static double mass(double[] mass, double from, double to) {
    double sum = 0;
    for (int bin = 0; bin < BINS; bin++) {
      double place = (double) bin / BINS;
      sum += place >= from && place < to ? mass[bin] : 0;
    }
    return sum;
  }

  private static double ratio(double[] mass) {
    double sum = 0;
    double weighted = 0;
    for (int bin = 0; bin < BINS; bin++) {
      double place = (double) bin / BINS;
      if (place >= LATEST_EVEN_EIGHTH && place < 0.76) {
        sum += mass[bin];
        weighted += place * mass[bin];
      }
    }
    double place = weighted / sum;
    return Math.round(100 * place / (1 - place)) / 100.0;
  }
}
