package undersong.estimate.beat;

import java.util.Arrays;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;

/**
 * Where the ear hears sections begin. They begin on a beat, however far ahead of it the chords come
 * and the drums lean.
 */
final class SectionStarts {
  private static final double WEAKEST = 0.15;

  /** Starts that are heard with less than this all together say little. */
  private static final double DOUBT = 0.2;

  private final double[] frames;
  private final double[] strengths;

  private SectionStarts(double[] frames, double[] strengths) {
    this.frames = frames;
    this.strengths = strengths;
  }

  static SectionStarts of(EarActivations ear) {
    FrameMatrix heard = ear.head(EarHead.BOUNDARY);
    double[] frames = new double[heard.frames()];
    double[] strengths = new double[heard.frames()];
    int count = 0;
    for (int i = 1; i + 1 < heard.frames(); i++) {
      double left = heard.at(i - 1, 0);
      double here = heard.at(i, 0);
      double right = heard.at(i + 1, 0);
      if (here > WEAKEST && here >= left && here > right) {
        double summit = i + 0.5 * (left - right) / (left - 2 * here + right);
        frames[count] = (summit + 0.5) * EarHead.BOUNDARY.averagedFrames();
        strengths[count++] = here;
      }
    }
    return new SectionStarts(Arrays.copyOf(frames, count), Arrays.copyOf(strengths, count));
  }

  /** -1 to 1: how much nearer sections begin to these beats than half way between them. */
  double favor(PulseHypothesis pulse) {
    double[] beats = pulse.beatFrames();
    double sum = 0;
    double all = DOUBT;
    for (int i = 0; i < frames.length; i++) {
      int found = Arrays.binarySearch(beats, frames[i]);
      int beat = found >= 0 ? found : -found - 2;
      if (beat >= 0 && beat + 1 < beats.length) {
        double place = (frames[i] - beats[beat]) / (beats[beat + 1] - beats[beat]);
        sum += strengths[i] * Math.cos(2 * Math.PI * place);
        all += strengths[i];
      }
    }
    return sum / all;
  }
}
