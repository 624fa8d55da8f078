package undersong.feature.ear;

import java.util.Arrays;
import java.util.Map;
import undersong.feature.EarHead;

/**
 * What the second stage made of a stretch.
 *
 * @param frames of the stretch
 * @param logits of its heads, frame after frame
 * @param context for the third stage, row after row, {@code frames} values each
 * @param noBass logit of "no bass note", one a frame
 */
@SuppressWarnings("ArrayRecordComponent") // passes from stage to stage, never compared
record Thought(int frames, Map<EarHead, float[]> logits, float[] context, float[] noBass) {

  /** The part that the third stage reads of frames {@code from} to {@code to} (exclusive). */
  Thought contextOf(int from, int to) {
    int rows = context.length / frames;
    int count = to - from;
    float[] part = new float[rows * count];
    for (int row = 0; row < rows; row++) {
      System.arraycopy(context, row * frames + from, part, row * count, count);
    }
    return new Thought(count, Map.of(), part, Arrays.copyOfRange(noBass, from, to));
  }
}
