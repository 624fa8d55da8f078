package undersong.reading;

import java.util.OptionalDouble;
import undersong.time.Span;

/**
 * A stretch in which a layer goes on sounding: it enters at the start and leaves at the end. Gaps
 * shorter than two bars do not end it (a bar where notes are held or plucked).
 *
 * @param decaySeconds time its sounds take to fall by 60 dB; empty where that was not measured
 * @param probability that it sounds here, with entry and exit within half a bar
 */
public record Layer(LayerKind kind, Span span, OptionalDouble decaySeconds, double probability) {
  public Layer {
    Probability.check(probability);
  }

  Object essence() {
    return java.util.List.of(kind, span, decaySeconds);
  }
}
