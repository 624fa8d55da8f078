package undersong.audio;

/**
 * Stereo samples at {@link AudioReader#SAMPLE_RATE_HZ}, from the first to the last. Can be run more
 * than once and gives the same samples each time, in blocks of any size.
 */
@FunctionalInterface
public interface SampleStream {
  void to(BlockSink sink);
}
