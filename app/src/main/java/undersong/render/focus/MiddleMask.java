package undersong.render.focus;

import undersong.kernel.StereoMasking;

/**
 * Keeps the cells of the short-time spectrum in which both channels are alike, or all the others.
 *
 * <p>Likeness is Avendano's similarity (2003; see {@link undersong.feature.StereoImage}), real
 * part, raised to a power: a sound panned a fifth of the way keeps two thirds of its level, one
 * panned half way a sixteenth.
 */
final class MiddleMask implements StereoMasking.Mask {
  private static final double SHARPNESS = 8;

  private final boolean sides;
  private final float[] newest = new float[StereoMasking.BINS];

  MiddleMask(boolean sides) {
    this.sides = sides;
  }

  @Override
  public int lookAheadFrames() {
    return 0;
  }

  @Override
  public void see(float[] left, float[] right, float[] cross) {
    for (int k = 0; k < newest.length; k++) {
      double likeness = Math.max(0, 2 * cross[k] / (left[k] + right[k] + 1e-20));
      double middle = Math.pow(Math.min(1, likeness), SHARPNESS);
      newest[k] = (float) (sides ? 1 - middle : middle);
    }
  }

  @Override
  public void gains(float[] gains) {
    System.arraycopy(newest, 0, gains, 0, gains.length);
  }
}
