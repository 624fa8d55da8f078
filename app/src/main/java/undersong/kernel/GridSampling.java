package undersong.kernel;

/** Reads a curve at even places between the points of a grid. */
public final class GridSampling {
  private GridSampling() {}

  /**
   * The largest of each value and its two neighbors.
   *
   * @param x read
   */
  public static float[] widen(float[] x) {
    float[] wide = new float[x.length];
    for (int i = 0; i < x.length; i++) {
      float left = i > 0 ? x[i - 1] : 0;
      float right = i + 1 < x.length ? x[i + 1] : 0;
      wide[i] = Math.max(x[i], Math.max(left, right));
    }
    return wide;
  }

  /**
   * {@code out[(step * places + place) * stride + offset]} becomes the value at that place of that
   * step, the first place being the grid point itself.
   *
   * @param x read; outside it its first and last values hold
   * @param grid read: rising positions in x, G of them
   * @param out written, at least {@code (G - 1) * places * stride} long
   */
  public static void sample(
      float[] x, double[] grid, int places, float[] out, int stride, int offset) {
    int at = offset;
    for (int step = 0; step + 1 < grid.length; step++) {
      double share = (grid[step + 1] - grid[step]) / places;
      for (int place = 0; place < places; place++) {
        int i = (int) Math.round(grid[step] + place * share);
        out[at] = x.length == 0 ? 0 : x[Math.max(0, Math.min(x.length - 1, i))];
        at += stride;
      }
    }
  }
}
