package undersong.estimate.form;

/**
 * All bars against all bars. The likeness of two bars mixes harmony, texture and the tune; a song's
 * typical likeness is taken off, so that 0 means "no more alike than any two bars of this song".
 */
final class SelfSimilarity {
  /** Beyond this many bars (about three hours) bars far apart are not compared. */
  private static final int MOST_BARS = 4096;

  /** Semitones by which a later copy may be higher or lower. */
  static final int[] LIFTS = {0, 1, 2, 3, 4, -1, -2};

  /** What a lifted copy must be more alike than an equal one. */
  static final double LIFT_PENALTY = 0.08;

  private final int size;
  private final float[][] likeness;
  private final float[][] texture;
  private final BarDescriptions bars;
  private final double harmonyShare;
  private final double tuneShare;
  private final float typical;

  /**
   * @param harmonyShare of harmony in a likeness, texture having the rest
   * @param tuneShare of the leading tune where both bars have one, harmony and texture having the
   *     rest
   */
  SelfSimilarity(BarDescriptions bars, double harmonyShare, double tuneShare) {
    this.bars = bars;
    this.harmonyShare = harmonyShare;
    this.tuneShare = tuneShare;
    size = Math.min(MOST_BARS, bars.size());
    likeness = new float[size][size];
    texture = new float[size][size];
    double sum = 0;
    for (int i = 0; i < size; i++) {
      for (int j = i; j < size; j++) {
        float t = bars.textureLikeness(i, j);
        float both = mix(i, j, 0, t);
        texture[i][j] = t;
        texture[j][i] = t;
        likeness[i][j] = both;
        likeness[j][i] = both;
        sum += i == j ? 0 : both;
      }
    }
    typical = size < 2 ? 0 : (float) (2 * sum / ((double) size * (size - 1)));
    for (float[] row : likeness) {
      for (int j = 0; j < size; j++) {
        row[j] = relative(row[j]);
      }
    }
  }

  int size() {
    return size;
  }

  /** 0 = as alike as any two bars of this song, 1 = the same. */
  float at(int bar, int other) {
    return likeness[bar][other];
  }

  float textureAt(int bar, int other) {
    return texture[bar][other];
  }

  /** Mean likeness of two stretches of bars laid side by side, the second lowered by semitones. */
  double alongside(int first, int other, int length, int semitones) {
    double sum = 0;
    for (int k = 0; k < length; k++) {
      sum += lifted(first + k, other + k, semitones);
    }
    return sum / length;
  }

  /** Likeness of two bars, the second lowered by some semitones first. */
  float lifted(int bar, int other, int semitones) {
    return semitones == 0
        ? likeness[bar][other]
        : relative(mix(bar, other, semitones, texture[bar][other]));
  }

  private float mix(int bar, int other, int semitones, float textureLikeness) {
    double both =
        harmonyShare * bars.harmonyLikeness(bar, other, semitones)
            + (1 - harmonyShare) * textureLikeness;
    return (float)
        (bars.hasTune(bar) && bars.hasTune(other)
            ? (1 - tuneShare) * both + tuneShare * bars.tuneLikeness(bar, other, semitones)
            : both);
  }

  private float relative(float value) {
    return typical > 0.98f ? 0 : (value - typical) / (1 - typical);
  }
}
