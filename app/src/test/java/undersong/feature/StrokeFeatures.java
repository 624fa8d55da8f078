package undersong.feature;

import java.util.Optional;
import undersong.time.FrameClock;

/** Features of a recording that holds nothing but strokes, for tests of rhythm. */
public final class StrokeFeatures {
  /** The onset features stand this much later than the strokes that they show. */
  private static final double DELAY_SECONDS = 0.018;

  private static final FrameClock ONSETS = new FrameClock(22_050, 441);
  private static final FrameClock LEVELS = new FrameClock(22_050, 2205);

  private final double durationSeconds;
  private final float[] all;
  private final float[] bands;
  private double firstSeconds = Double.POSITIVE_INFINITY;
  private double lastSeconds = Double.NEGATIVE_INFINITY;

  public StrokeFeatures(double durationSeconds) {
    this.durationSeconds = durationSeconds;
    int frames = (int) Math.round(durationSeconds * ONSETS.framesPerSecond());
    all = new float[frames];
    bands = new float[3 * frames];
  }

  /** A stroke in three registers, each 0 (silent) to 1. */
  public StrokeFeatures stroke(double seconds, double low, double middle, double high) {
    double frame = (seconds + DELAY_SECONDS) * ONSETS.framesPerSecond();
    for (int i = (int) Math.floor(frame) - 1; i <= (int) Math.floor(frame) + 2; i++) {
      if (i >= 0 && i < all.length) {
        float share = (float) Math.max(0, 1 - Math.abs(i - frame) / 1.5);
        enter(3 * i, share * low);
        enter(3 * i + 1, share * middle);
        enter(3 * i + 2, share * high);
        all[i] = (bands[3 * i] + bands[3 * i + 1] + bands[3 * i + 2]) / 3;
      }
    }
    firstSeconds = Math.min(firstSeconds, seconds);
    lastSeconds = Math.max(lastSeconds, seconds);
    return this;
  }

  private void enter(int at, double strength) {
    bands[at] = (float) Math.max(bands[at], strength);
  }

  public Features toFeatures() {
    FrameSeries nothing = new FrameSeries(LEVELS, new float[1]);
    FrameMatrix noSpectrum = FrameMatrix.of(LEVELS, 264, new float[264]);
    int levelFrames = (int) Math.round(durationSeconds * LEVELS.framesPerSecond());
    float[] levels = new float[7 * levelFrames];
    for (int i = 0; i < levels.length; i++) {
      int frame = i / 7;
      double seconds = LEVELS.secondsAt(frame);
      levels[i] = seconds >= firstSeconds - 0.05 && seconds <= lastSeconds + 0.4 ? -20 : -120;
    }
    FrameMatrix levelsDb = FrameMatrix.of(LEVELS, 7, levels);
    return new Features(
        "strokes",
        durationSeconds,
        new FrameSeries(ONSETS, all),
        FrameMatrix.of(ONSETS, 3, bands),
        Tempogram.of(all),
        noSpectrum,
        noSpectrum,
        new Loudness(nothing, nothing, -20, 0),
        levelsDb,
        levelsDb,
        nothing,
        nothing,
        nothing,
        StereoImage.NOTHING,
        Optional.empty());
  }
}
