package undersong.audio;

/** Takes decoded samples, block by block, in order. */
@FunctionalInterface
public interface BlockSink {
  /**
   * @param interleaved left, right, left, right ...; read only, and only during the call: the array
   *     is filled again for the next block
   * @param frames how many pairs the block holds; the rest of the array is meaningless
   */
  void accept(float[] interleaved, int frames);
}
