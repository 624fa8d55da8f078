package undersong.feature;

import java.util.Map;

/**
 * What the listening network heard, as probabilities, head by head.
 *
 * @param modelVersion of the network that heard it
 * @param heads {@link EarHead#output()} to its probabilities
 */
public record EarActivations(String modelVersion, Map<String, FrameMatrix> heads) {
  public EarActivations {
    heads = Map.copyOf(heads);
  }

  /** Whether the model that heard this had such a head. */
  public boolean has(EarHead head) {
    return heads.containsKey(head.output());
  }

  /** One head; throws where the model that heard this had none of the kind. */
  public FrameMatrix head(EarHead head) {
    FrameMatrix matrix = heads.get(head.output());
    if (matrix == null || matrix.bins() != head.bins()) {
      throw new IllegalArgumentException(
          "Head %s must be there with %d bins. Maybe the model is older than this program."
              .formatted(head.output(), head.bins()));
    }
    return matrix;
  }
}
