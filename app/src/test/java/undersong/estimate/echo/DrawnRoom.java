package undersong.estimate.echo;

import java.util.Random;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;

/**
 * Powers of sounds in a room, drawn cell by cell: strokes panned to one place, and behind them what
 * has nothing in common between the sides, whose power falls by 60 dB within the decay time (the
 * definition of ISO 3382) and is an exponential variable in each cell, as that of noise is.
 */
final class DrawnRoom {
  private final Random random = new Random(11);
  private final int frames;
  private final double decaySeconds;
  private final double wet;
  private final double apart;

  /**
   * @param wet power of the reverberant sound against the direct sound
   * @param apart power of what is unlike on both sides and sounds with the direct sound, as that of
   *     a part that is played twice
   */
  DrawnRoom(double seconds, double decaySeconds, double wet, double apart) {
    frames = (int) (seconds * StereoImage.CLOCK.framesPerSecond());
    this.decaySeconds = decaySeconds;
    this.wet = wet;
    this.apart = apart;
  }

  StereoPowers powers() {
    float[] level = new float[frames * StereoImage.BINS];
    float[] balance = new float[level.length];
    float[] likeness = new float[level.length];
    for (int bin = 0; bin < StereoImage.BINS; bin++) {
      double[] direct = strokes();
      double[] lagging = lagging(direct);
      double angle = Math.PI / 2 * random.nextDouble();
      for (int t = 0; t < frames; t++) {
        double noise = wet * lagging[t] + apart * direct[t];
        double left = direct[t] * Math.pow(Math.cos(angle), 2) + noise / 2 * drawn();
        double right = direct[t] * Math.pow(Math.sin(angle), 2) + noise / 2 * drawn();
        double cross = direct[t] * Math.cos(angle) * Math.sin(angle);
        int at = t * StereoImage.BINS + bin;
        level[at] = (float) (10 * Math.log10((left + right) / 2 + 1e-9) - 20);
        balance[at] = (float) ((right - left) / (right + left));
        likeness[at] = (float) (2 * cross / (left + right));
      }
    }
    return powers(level, balance, likeness);
  }

  /** Powers of a stereo image without any sound below it; one value a cell. */
  static StereoPowers powers(float[] level, float[] balance, float[] likeness) {
    FrameMatrix nothing = FrameMatrix.of(StereoImage.WAVE_CLOCK, 1, new float[0]);
    return StereoPowers.of(
        new StereoImage(
            FrameMatrix.of(StereoImage.CLOCK, StereoImage.BINS, level),
            FrameMatrix.of(StereoImage.CLOCK, StereoImage.BINS, balance),
            FrameMatrix.of(StereoImage.CLOCK, StereoImage.BINS, likeness),
            nothing,
            nothing));
  }

  /** About three a second, each ringing off by a tenth of its power a frame. */
  private double[] strokes() {
    double[] strokes = new double[frames];
    double power = 0;
    for (int t = 0; t < frames; t++) {
      power = random.nextDouble() < 0.12 ? 0.2 + 2 * random.nextDouble() : 0.6 * power + 1e-4;
      strokes[t] = power;
    }
    return strokes;
  }

  private double[] lagging(double[] direct) {
    double kept = Math.pow(10, -6 / (decaySeconds * StereoImage.CLOCK.framesPerSecond()));
    double[] lagging = new double[frames];
    for (int t = 1; t < frames; t++) {
      lagging[t] = kept * lagging[t - 1] + (1 - kept) * direct[t - 1];
    }
    return lagging;
  }

  private double drawn() {
    return -Math.log(1 - random.nextDouble());
  }
}
