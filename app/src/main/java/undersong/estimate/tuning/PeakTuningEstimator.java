package undersong.estimate.tuning;

import java.util.List;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.reading.Correction;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Reading;
import undersong.reading.Tuning;

/**
 * Reads the tuning off the spectral peaks: each peak's distance from the equal-tempered grid is an
 * angle (50 cents = half a turn), and the angles are averaged as vectors, louder peaks counting
 * more.
 *
 * <p><b>In:</b> {@code longSpectrum}. <b>Out:</b> cents from A = 440 Hz, -50 to 50. <b>Silence</b>
 * gives 0 cents with probability 0. A {@link Correction.TuningIs} is taken as said, the newest
 * winning. <b>Cost:</b> O(frames * bins).
 *
 * <p>Source: the circular mean of peak deviations, common practice in chroma extraction.
 */
public final class PeakTuningEstimator implements Estimator<Tuning> {
  private static final int BINS_PER_SEMITONE = 3;
  private static final int LOWEST_BIN = 3 * 24; // A2: below, the filters are too wide
  private static final int EVERY = 5;

  /** A peak counts from this height (feature units, log1p) above the bins two steps away. */
  private static final double RISE = 0.35;

  /** This much agreement of the peaks (length of their mean vector) says the tuning is certain. */
  private static final double CERTAIN = 0.6;

  @Override
  public Derived<Tuning> estimate(Features features, Reading earlier, Corrections corrections) {
    List<Correction.TuningIs> said = corrections.ofKind(Correction.TuningIs.class);
    if (!said.isEmpty()) {
      return Derived.of(new Tuning(said.get(said.size() - 1).cents(), 1));
    }
    return Derived.of(heard(features.longSpectrum()));
  }

  private static Tuning heard(FrameMatrix spectrum) {
    double x = 0;
    double y = 0;
    double total = 0;
    float[] frame = new float[spectrum.bins()];
    for (int t = 0; t < spectrum.frames(); t += EVERY) {
      spectrum.copyFrame(t, frame);
      for (int b = LOWEST_BIN; b < frame.length - 2; b++) {
        if (frame[b] > frame[b - 1]
            && frame[b] >= frame[b + 1]
            && frame[b] - Math.max(frame[b - 2], frame[b + 2]) > RISE) {
          double angle = 2 * Math.PI * (b - 1 + offset(frame, b)) / BINS_PER_SEMITONE;
          double weight = frame[b];
          x += weight * Math.cos(angle);
          y += weight * Math.sin(angle);
          total += weight;
        }
      }
    }
    if (total == 0) {
      return new Tuning(0, 0);
    }
    double cents = Math.rint(Math.atan2(y, x) / (2 * Math.PI) * 1000) / 10;
    return new Tuning(cents, Math.min(1, Math.hypot(x, y) / total / CERTAIN));
  }

  /**
   * Center of power of three bins, in bins from the middle one: overlapping triangles share the
   * power of a partial between them as its distance from their centers asks.
   */
  private static double offset(float[] frame, int b) {
    double left = power(frame[b - 1]);
    double right = power(frame[b + 1]);
    return (right - left) / (left + power(frame[b]) + right);
  }

  private static double power(float feature) {
    double magnitude = Math.expm1(feature);
    return magnitude * magnitude;
  }
}
