package undersong.render.focus;

import java.util.Arrays;
import undersong.kernel.StereoMasking;

/**
 * Keeps what goes on in time, or what stands across all frequencies for a moment: each bin's median
 * over time against the median of its neighbors in frequency.
 *
 * <p>Source: D. FitzGerald, "Harmonic/Percussive Separation Using Median Filtering", DAFx 2010,
 * with its soft masks (from memory). Departs from it: medians over 17 frames (0.4 s) and 17 bins.
 */
final class HeldMask implements StereoMasking.Mask {
  private static final int REACH = 8;
  private static final int SPAN = 2 * REACH + 1;
  private static final int BINS = StereoMasking.BINS;

  private final boolean struck;
  private final float[][] ring = new float[SPAN][BINS];
  private final float[] across = new float[SPAN];
  private int seen;

  HeldMask(boolean struck) {
    this.struck = struck;
  }

  @Override
  public int lookAheadFrames() {
    return REACH;
  }

  @Override
  public void see(float[] left, float[] right, float[] cross) {
    float[] magnitudes = ring[seen % SPAN];
    for (int k = 0; k < BINS; k++) {
      magnitudes[k] = (float) Math.sqrt(left[k] + right[k]);
    }
    seen++;
  }

  @Override
  public void gains(float[] gains) {
    float[] here = ring[Math.floorMod(seen - 1 - REACH, SPAN)];
    for (int k = 0; k < BINS; k++) {
      for (int t = 0; t < SPAN; t++) {
        across[t] = ring[t][k];
      }
      double held = median();
      for (int f = 0; f < SPAN; f++) {
        across[f] = here[Math.max(0, Math.min(BINS - 1, k + f - REACH))];
      }
      double strike = median();
      double heldShare = held * held / (held * held + strike * strike + 1e-20);
      gains[k] = (float) (struck ? 1 - heldShare : heldShare);
    }
  }

  private float median() {
    Arrays.sort(across);
    return across[REACH];
  }
}
