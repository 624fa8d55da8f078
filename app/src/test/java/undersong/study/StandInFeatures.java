package undersong.study;

import java.util.Optional;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.FrameSeries;
import undersong.feature.Loudness;
import undersong.feature.StereoImage;
import undersong.time.FrameClock;

/** Features of the right shapes that hold silence; for tests whose estimators do not look. */
final class StandInFeatures {
  private StandInFeatures() {}

  static Features silence(String contentHash, double durationSeconds) {
    FrameMatrix spectrum = matrix(25, 264, durationSeconds);
    FrameMatrix levels = matrix(10, 7, durationSeconds);
    FrameSeries curve = series(10, durationSeconds);
    return new Features(
        contentHash,
        durationSeconds,
        series(50, durationSeconds),
        matrix(50, 3, durationSeconds),
        matrix(2, 96, durationSeconds),
        spectrum,
        spectrum,
        new Loudness(curve, curve, Loudness.SILENT_LUFS, 0),
        levels,
        levels,
        curve,
        curve,
        curve,
        StereoImage.NOTHING,
        Optional.empty());
  }

  private static FrameMatrix matrix(int framesPerSecond, int bins, double durationSeconds) {
    int frames = (int) (durationSeconds * framesPerSecond);
    return FrameMatrix.of(clock(framesPerSecond), bins, new float[frames * bins]);
  }

  private static FrameSeries series(int framesPerSecond, double durationSeconds) {
    return new FrameSeries(
        clock(framesPerSecond), new float[(int) (durationSeconds * framesPerSecond)]);
  }

  private static FrameClock clock(int framesPerSecond) {
    return new FrameClock(44_100, 44_100 / framesPerSecond);
  }
}
