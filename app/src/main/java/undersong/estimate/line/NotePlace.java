package undersong.estimate.line;

import java.util.OptionalDouble;
import undersong.feature.StereoImage;
import undersong.theory.SpelledPitch;

/**
 * Where a note stands: by how much power its onset adds on either side, in the bins of its first
 * partials, read against a constant-power pan law: a quarter circle from left to right.
 *
 * <p>Source: the place of a time-frequency cell is after C. Avendano, "Frequency-domain source
 * identification and manipulation in stereo mixes", WASPAA 2003 (from memory). Departs from it: the
 * power that an onset adds, not all that sounds.
 */
final class NotePlace {
  private static final int PARTIALS = 3;
  private static final int BEFORE_FRAMES = 2;
  private static final int AFTER_FRAMES = 4;

  /** An onset must at least add a fifth to what sounds already. */
  private static final double LEAST_RISE = 0.2;

  private final StereoImage image;

  NotePlace(StereoImage image) {
    this.image = image;
  }

  OptionalDouble of(double startSeconds, double midiPitch) {
    int onset = StereoImage.CLOCK.frameAt(startSeconds);
    if (onset - BEFORE_FRAMES < 0 || onset + AFTER_FRAMES >= image.frames()) {
      return OptionalDouble.empty();
    }
    double left = 0;
    double right = 0;
    double before = 0;
    for (int partial = 1; partial <= PARTIALS; partial++) {
      int bin = StereoImage.binOf(partial * SpelledPitch.hertz(midiPitch));
      double leftBefore = power(onset - BEFORE_FRAMES, onset, bin, -1);
      double rightBefore = power(onset - BEFORE_FRAMES, onset, bin, 1);
      double leftAfter = power(onset + 1, onset + 1 + AFTER_FRAMES, bin, -1);
      double rightAfter = power(onset + 1, onset + 1 + AFTER_FRAMES, bin, 1);
      if (leftAfter + rightAfter > leftBefore + rightBefore) {
        left += Math.max(0, leftAfter - leftBefore);
        right += Math.max(0, rightAfter - rightBefore);
        before += leftBefore + rightBefore;
      }
    }
    if (left + right <= LEAST_RISE * before || left + right <= 0) {
      return OptionalDouble.empty();
    }
    double balance = (right - left) / (right + left);
    return OptionalDouble.of(2 / Math.PI * Math.asin(balance));
  }

  /** Mean power of one side; -1 = left, 1 = right. */
  private double power(int from, int to, int bin, int side) {
    double sum = 0;
    for (int frame = from; frame < Math.min(to, image.frames()); frame++) {
      double level = Math.pow(10, image.levelDb().at(frame, bin) / 10);
      sum += level * (1 + side * image.balance().at(frame, bin));
    }
    return sum / Math.max(1, to - from);
  }
}
