package undersong.estimate.beat;

import undersong.feature.Features;
import undersong.feature.FrameSeries;
import undersong.kernel.LocalLevel;
import undersong.time.FrameClock;

/**
 * Beat activation from onset features: each onset curve against its own level of the last and next
 * seconds, so that a quiet verse counts as much as a loud chorus, then the bands added up with the
 * drums' registers in front.
 */
final class ClassicalBeatActivation {
  private static final double LEVEL_SECONDS = 5;
  private static final double QUIETEST_SHARE = 0.15;
  private static final double FULL_STRENGTH = 2.5;
  private static final double WHOLE = 0.4;
  private static final double LOW = 0.35;
  private static final double MIDDLE = 0.25;

  private ClassicalBeatActivation() {}

  static BeatActivation of(Features features) {
    FrameClock clock = features.onsetStrength().clock();
    int frames = Math.min(features.onsetStrength().frames(), features.bandOnsets().frames());
    float[] whole = new float[frames];
    float[][] bands = new float[3][frames];
    for (int frame = 0; frame < frames; frame++) {
      whole[frame] = features.onsetStrength().at(frame);
      for (int band = 0; band < 3; band++) {
        bands[band][frame] = features.bandOnsets().at(frame, band);
      }
    }
    int half = (int) Math.round(LEVEL_SECONDS * clock.framesPerSecond());
    LocalLevel.divide(whole, half, FULL_STRENGTH, QUIETEST_SHARE);
    for (float[] band : bands) {
      LocalLevel.divide(band, half, FULL_STRENGTH, QUIETEST_SHARE);
    }
    float[] beat = new float[frames];
    for (int frame = 0; frame < frames; frame++) {
      beat[frame] =
          (float) (WHOLE * whole[frame] + LOW * bands[0][frame] + MIDDLE * bands[1][frame]);
    }
    return new BeatActivation(
        new FrameSeries(clock, beat),
        new FrameSeries(clock, bands[0]),
        new FrameSeries(clock, bands[1]),
        new FrameSeries(clock, bands[2]),
        new TempoEvidence(features.tempogram(), 30, 24));
  }
}
