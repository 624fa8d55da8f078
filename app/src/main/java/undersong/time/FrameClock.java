package undersong.time;

/**
 * Turns frame numbers into seconds and back; a feature carries its clock so that hop and array
 * cannot disagree. Frame i is centered at sample {@code i * hopSamples}.
 */
public record FrameClock(int sampleRateHz, int hopSamples) {
  public FrameClock {
    if (sampleRateHz <= 0 || hopSamples <= 0) {
      throw new IllegalArgumentException(
          "FrameClock (%d Hz, hop %d) needs a positive rate and a positive hop."
              .formatted(sampleRateHz, hopSamples));
    }
  }

  public double framesPerSecond() {
    return (double) sampleRateHz / hopSamples;
  }

  public double secondsAt(double frame) {
    return frame * hopSamples / sampleRateHz;
  }

  /** The frame whose center lies nearest; may lie outside the array it is used on. */
  public int frameAt(double seconds) {
    return (int) Math.round(seconds * sampleRateHz / hopSamples);
  }
}
