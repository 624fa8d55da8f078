package undersong.feature.ear;

import java.util.Arrays;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.time.FrameClock;

/** Turns one head's logits into probabilities, averages them over its frames and keeps 16 bits. */
final class HeadCollector {
  private static final int SAMPLE_RATE_HZ = 22_050;
  private static final float STEP = 1f / 32_767;

  private final EarHead head;
  private final float temperature;
  private final double[] sums;
  private final double[] row;
  private int summed;
  private short[] steps;
  private int length;

  HeadCollector(EarHead head, float temperature) {
    this.head = head;
    this.temperature = temperature;
    sums = new double[head.bins()];
    row = new double[head.bins()];
    steps = new short[head.bins() * 1024];
  }

  /**
   * @param logits read, frame after frame; frames {@code begin} to {@code end} (exclusive) are
   *     taken
   */
  void add(float[] logits, int begin, int end) {
    for (int frame = begin; frame < end; frame++) {
      probabilities(logits, frame * head.bins());
      for (int bin = 0; bin < sums.length; bin++) {
        sums[bin] += row[bin];
      }
      if (++summed == head.averagedFrames()) {
        flush();
      }
    }
  }

  FrameMatrix finish() {
    if (summed > 0) {
      flush();
    }
    int hop = SAMPLE_RATE_HZ / EarHead.FRAMES_PER_SECOND * head.averagedFrames();
    return FrameMatrix.ofSteps(
        new FrameClock(SAMPLE_RATE_HZ, hop), head.bins(), STEP, Arrays.copyOf(steps, length));
  }

  private void probabilities(float[] logits, int offset) {
    if (!head.excludes()) {
      for (int bin = 0; bin < row.length; bin++) {
        row[bin] = 1 / (1 + Math.exp(-logits[offset + bin] / temperature));
      }
      return;
    }
    double largest = Double.NEGATIVE_INFINITY;
    for (int bin = 0; bin < row.length; bin++) {
      largest = Math.max(largest, logits[offset + bin]);
    }
    double sum = 0;
    for (int bin = 0; bin < row.length; bin++) {
      row[bin] = Math.exp((logits[offset + bin] - largest) / temperature);
      sum += row[bin];
    }
    for (int bin = 0; bin < row.length; bin++) {
      row[bin] /= sum;
    }
  }

  private void flush() {
    if (length + head.bins() > steps.length) {
      steps = Arrays.copyOf(steps, steps.length + steps.length / 2 + head.bins());
    }
    for (int bin = 0; bin < sums.length; bin++) {
      steps[length++] = (short) Math.round(sums[bin] / summed / STEP);
      sums[bin] = 0;
    }
    summed = 0;
  }
}
