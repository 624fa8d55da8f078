package undersong.feature.ear;

import java.util.Arrays;

/** What the second stage takes in, collected from stretches: the frames it may still need. */
final class JoinedFrames {
  private float[] frames = new float[0];
  private int channels;
  private int start;
  private int end;

  /** Number of the frame after the last one appended. */
  int end() {
    return end;
  }

  /**
   * @param stretch read; channel after channel
   * @param from first frame of the stretch to append
   * @param count how many
   */
  void append(float[] stretch, int from, int count, int stretchFrames) {
    channels = stretch.length / stretchFrames;
    int size = (end - start + count) * channels;
    if (size > frames.length) {
      frames = Arrays.copyOf(frames, size + size / 2);
    }
    for (int channel = 0; channel < channels; channel++) {
      int source = channel * stretchFrames + from;
      int target = (end - start) * channels + channel;
      for (int i = 0; i < count; i++) {
        frames[target + i * channels] = stretch[source + i];
      }
    }
    end += count;
  }

  /** Frames {@code from} to {@code to} (exclusive), channel after channel. */
  float[] channels(int from, int to) {
    int count = to - from;
    float[] out = new float[channels * count];
    for (int channel = 0; channel < channels; channel++) {
      for (int i = 0; i < count; i++) {
        out[channel * count + i] = frames[(from - start + i) * channels + channel];
      }
    }
    return out;
  }

  /** Drops the frames before {@code frame}. */
  void forget(int frame) {
    int dropped = frame - start;
    if (dropped > 0) {
      System.arraycopy(frames, dropped * channels, frames, 0, (end - frame) * channels);
      start = frame;
    }
  }
}
