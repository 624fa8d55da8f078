package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;

/** Energy of each part, of the mix and of the room in it in steps of 10 ms. */
final class MixLevels {
  private static final int STEP = Wave.RATE_HZ / 100;
  private static final double SILENT = 1e-12;

  private final List<double[]> parts = new ArrayList<>();
  private final double[] mix;
  private final double[] mid;
  private final double[] side;
  private final double[] dry;
  private final double[] wet;

  /**
   * @param left read: the whole mix
   * @param parts energies as {@link #energy} gives them
   * @param dry of the mix without the room
   * @param wet of the room alone
   */
  MixLevels(float[] left, float[] right, List<double[]> parts, double[] dry, double[] wet) {
    this.parts.addAll(parts);
    this.dry = dry;
    this.wet = wet;
    this.mix = energy(left, right);
    float[] sum = new float[left.length];
    float[] difference = new float[left.length];
    for (int i = 0; i < left.length; i++) {
      sum[i] = 0.5f * (left[i] + right[i]);
      difference[i] = 0.5f * (left[i] - right[i]);
    }
    this.mid = energy(sum);
    this.side = energy(difference);
  }

  /** Sum of squares per step over all channels. */
  static double[] energy(float[]... channels) {
    double[] energy = new double[channels[0].length / STEP + 1];
    for (float[] channel : channels) {
      for (int i = 0; i < channel.length; i++) {
        energy[i / STEP] += channel[i] * channel[i];
      }
    }
    return energy;
  }

  /** Level of a part against the whole mix through a stretch. */
  double partDb(int part, double startSeconds, double endSeconds) {
    return decibels(parts.get(part), mix, startSeconds, endSeconds);
  }

  double sideOverMidDb(double startSeconds, double endSeconds) {
    return decibels(side, mid, startSeconds, endSeconds);
  }

  double wetToDryDb(double startSeconds, double endSeconds) {
    return decibels(wet, dry, startSeconds, endSeconds);
  }

  private static double decibels(double[] over, double[] under, double start, double end) {
    double above = SILENT;
    double below = SILENT;
    int last = Math.min(over.length - 1, (int) (end * 100));
    for (int i = Math.max(0, (int) (start * 100)); i <= last; i++) {
      above += over[i];
      below += under[i];
    }
    return 10 * Math.log10(above / below);
  }
}
