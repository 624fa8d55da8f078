package undersong.feature;

import java.util.Map;

/**
 * What the listening network put out, head by head.
 *
 * @param modelVersion of the network that heard it
 * @param heads name of a head to its values, 50 frames a second; probabilities or log-probabilities
 *     as the model's description says
 */
public record EarActivations(String modelVersion, Map<String, FrameMatrix> heads) {
  public EarActivations {
    heads = Map.copyOf(heads);
  }
}
