package undersong.estimate.echo;

import java.util.List;
import java.util.Optional;
import undersong.feature.FrameMatrix;
import undersong.kernel.WhitenedCopies;
import undersong.time.Span;

/**
 * A delay's lag to a part of a millisecond: near what the ear says, the whitened mix is alike where
 * its copy lies, and since a machine's lag does not wander, all stretches add up. Where nothing
 * stands out, the ear was deceived: what only resembles a copy has no phase in common with it.
 *
 * <p><b>In:</b> the low waveform of the middle. <b>Silence:</b> no lag. <b>Cost:</b> three
 * transforms of 16384 samples for each 0.3 s, at most {@value #MOST_MOMENTS} of them a lag.
 */
public final class ExactLag {
  private static final double LENGTH_SECONDS = 0.6;
  private static final double STEP_SECONDS = 0.3;
  private static final int MOST_MOMENTS = 150;

  /** The ear's frames lie 20 ms apart, and it may be one off. */
  private static final double SEARCHED_SECONDS = 0.03;

  private static final double FAINT_POWER = 1e-8;

  /** Of the peak over the root mean square of the other lags about it. */
  private static final double LEAST_PROMINENCE = 4.5;

  /** The peak's own samples, to either side. */
  private static final int PEAK_SAMPLES = 6;

  private final FrameMatrix wave;
  private final double rateHz;
  private final WhitenedCopies copies;

  /**
   * @param wave samples of the middle, low
   */
  public ExactLag(FrameMatrix wave) {
    this.wave = wave;
    this.rateHz = wave.clock().framesPerSecond();
    this.copies = new WhitenedCopies(rateHz);
  }

  /**
   * @param lagSeconds about
   * @param stretches in which its copies are heard
   * @return empty where no lag stands out
   */
  public Optional<Double> seconds(double lagSeconds, List<Span> stretches) {
    int middle = (int) Math.round(lagSeconds * rateHz);
    int reach = (int) (SEARCHED_SECONDS * rateHz);
    int length = (int) (LENGTH_SECONDS * rateHz);
    float[] window = new float[length + middle + reach + 2];
    float[] likenesses = new float[middle + reach + 2];
    double[] all = new double[2 * reach + 1];
    double total = stretches.stream().mapToDouble(Span::lengthSeconds).sum();
    double step = Math.max(STEP_SECONDS, total / MOST_MOMENTS);
    for (Span stretch : stretches) {
      double at = stretch.startSeconds();
      do {
        if (read(window, length, wave.clock().frameAt(at)) > FAINT_POWER) {
          copies.compare(window, length, likenesses);
          double squares = 0;
          for (int i = 0; i < all.length; i++) {
            squares += likenesses[middle - reach + i] * likenesses[middle - reach + i];
          }
          for (int i = 0; i < all.length && squares > 0; i++) {
            all[i] += likenesses[middle - reach + i] / Math.sqrt(squares);
          }
        }
        at += step;
      } while (at < stretch.endSeconds() - lagSeconds);
    }
    int best = 0;
    for (int i = 1; i < all.length; i++) {
      best = all[i] > all[best] ? i : best;
    }
    return prominence(all, best) < LEAST_PROMINENCE
        ? Optional.empty()
        : Optional.of((middle - reach + best + peak(all, best)) / rateHz);
  }

  private static double prominence(double[] values, int best) {
    double squares = 0;
    int count = 0;
    for (int i = 0; i < values.length; i++) {
      if (Math.abs(i - best) > PEAK_SAMPLES) {
        squares += values[i] * values[i];
        count++;
      }
    }
    return squares > 0 ? values[best] / Math.sqrt(squares / count) : 0;
  }

  /** Between samples, by a parabola. */
  private static double peak(double[] values, int best) {
    if (best == 0 || best == values.length - 1) {
      return 0;
    }
    double bend = values[best - 1] - 2 * values[best] + values[best + 1];
    return bend < 0 ? 0.5 * (values[best - 1] - values[best + 1]) / bend : 0;
  }

  /** Mean power of the first samples. */
  private double read(float[] window, int length, int first) {
    double power = 0;
    for (int i = 0; i < window.length; i++) {
      window[i] = first + i < wave.frames() ? wave.at(first + i, 0) : 0;
      power += i < length ? window[i] * window[i] / length : 0;
    }
    return power;
  }
}
