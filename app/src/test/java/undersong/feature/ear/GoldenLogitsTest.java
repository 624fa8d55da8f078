package undersong.feature.ear;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.EnumMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import undersong.feature.EarHead;
import undersong.feature.EarSpectra;
import undersong.feature.GoldenSignal;

/** The whole way from samples to logits against Python's (training/golden.py). */
final class GoldenLogitsTest {
  private static final double TOLERANCE = 1e-3;

  @Test
  void theNetworkGivesTheSameLogits() {
    EarSpectra spectra = GoldenSignal.spectra();
    Map<EarHead, float[]> found = new EnumMap<>(EarHead.class);
    try (ListeningModel model = ListeningModel.load().orElseThrow();
        Looked looked = model.look(spectra)) {
      Thought thought = model.think(looked.joined(), spectra.frames());
      found.putAll(thought.logits());
      found.putAll(model.follow(looked, thought));
      found.putAll(model.hearPlayers(looked.planeValues(), thought.context(), spectra.frames()));
    }
    JsonNode rows = GoldenSignal.values().path("outputs");
    assertThat(rows.size()).isEqualTo(6 * found.size());

    double farthest = 0;
    for (JsonNode row : rows) {
      EarHead head = head(row.path("output").asText());
      JsonNode logits = row.path("logits");
      assertThat(logits.size()).isEqualTo(head.bins());
      for (int bin = 0; bin < head.bins(); bin++) {
        double value = found.get(head)[row.path("frame").asInt() * head.bins() + bin];
        farthest = Math.max(farthest, Math.abs(value - logits.get(bin).asDouble()));
      }
    }
    assertThat(farthest).isCloseTo(0, within(TOLERANCE));
  }

  private static EarHead head(String output) {
    for (EarHead head : EarHead.values()) {
      if (head.output().equals(output)) {
        return head;
      }
    }
    throw new AssertionError("No head reads the output " + output + ".");
  }
}
