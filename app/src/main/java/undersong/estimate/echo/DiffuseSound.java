package undersong.estimate.echo;

import java.util.Arrays;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;

/**
 * How a recording's sound and that part of it which stands nowhere rise and fall, by half octaves.
 * In each cell what lies across the direction of the last quarter second stands nowhere: a sound
 * that is panned by level adds nothing to it, a reflection from elsewhere does. Every bin counts
 * alike, by its own mean over the recording.
 *
 * <p><b>Cost:</b> O(frames * bins), once for a recording.
 */
final class DiffuseSound {
  static final double FRAMES_PER_SECOND = StereoImage.CLOCK.framesPerSecond();
  static final int BANDS = 13;
  private static final double BOTTOM_HZ = 80;

  /** On each side of a frame: 0.28 s in all. */
  private static final int ABOUT_FRAMES = 3;

  /** What stands nowhere lies in all directions, and was measured in one. */
  private static final double DIRECTIONS = 2;

  /** Even where all stands nowhere, some of it is not reflected. */
  private static final double LEAST_DIRECT = 0.05;

  private final double[][] whole = new double[BANDS][];
  private final double[][] diffuse = new double[BANDS][];
  private final double[][] direct = new double[BANDS][];

  DiffuseSound(StereoPowers powers) {
    for (int band = 0; band < BANDS; band++) {
      whole[band] = new double[powers.frames()];
      diffuse[band] = new double[powers.frames()];
      direct[band] = new double[powers.frames()];
    }
    for (int bin = 0; bin < StereoImage.BINS; bin++) {
      double middleHz = Math.sqrt(StereoImage.edgeHz(bin) * StereoImage.edgeHz(bin + 1));
      int band = (int) Math.floor(2 * Math.log(middleHz / BOTTOM_HZ) / Math.log(2));
      if (band >= 0 && band < BANDS) {
        add(powers, bin, band);
      }
    }
    for (int band = 0; band < BANDS; band++) {
      for (int t = 0; t < direct[band].length; t++) {
        direct[band][t] =
            Math.max(LEAST_DIRECT * whole[band][t], whole[band][t] - DIRECTIONS * diffuse[band][t]);
      }
    }
  }

  /** Middle of a band. */
  static double hertz(int band) {
    return BOTTOM_HZ * Math.pow(2, (band + 0.5) / 2);
  }

  int frames() {
    return whole[0].length;
  }

  /** Power of all that sounds. */
  double[] whole(int band) {
    return whole[band];
  }

  /** Power across the direction of what is loudest. */
  double[] diffuse(int band) {
    return diffuse[band];
  }

  /** Power of what is not reflected, as far as that can be told. */
  double[] direct(int band) {
    return direct[band];
  }

  private void add(StereoPowers powers, int bin, int band) {
    int n = powers.frames();
    double mean = 0;
    for (int t = 0; t < n; t++) {
      mean += 2 * powers.power(t, bin) / n;
    }
    if (mean <= 0) {
      return;
    }
    double[] about = new double[3];
    for (int t = 0; t < n; t++) {
      Arrays.fill(about, 0);
      powers.addTo(about, t - ABOUT_FRAMES, t + ABOUT_FRAMES + 1, bin);
      double angle = 0.5 * Math.atan2(2 * about[2], about[0] - about[1]);
      double across = -Math.sin(angle);
      double along = Math.cos(angle);
      double power =
          across * across * powers.left(t, bin)
              + along * along * powers.right(t, bin)
              + 2 * across * along * powers.cross(t, bin);
      whole[band][t] += 2 * powers.power(t, bin) / mean;
      diffuse[band][t] += Math.max(0, power) / mean;
    }
  }

  /**
   * Mean over so many frames before and after each.
   *
   * @param x read
   */
  static double[] smooth(double[] x, int reach) {
    double[] sums = new double[x.length + 1];
    for (int t = 0; t < x.length; t++) {
      sums[t + 1] = sums[t] + x[t];
    }
    double[] means = new double[x.length];
    Arrays.setAll(
        means,
        t ->
            (sums[Math.min(x.length, t + reach + 1)] - sums[Math.max(0, t - reach)])
                / (2 * reach + 1));
    return means;
  }
}
