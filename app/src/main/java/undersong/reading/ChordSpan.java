package undersong.reading;

import java.util.List;
import java.util.Optional;
import undersong.theory.ChordSymbol;
import undersong.time.Span;

/**
 * One chord from its real arrival to the next.
 *
 * @param symbol its label; asserts no member that is absent
 * @param third whether its third sounds, is implied or absent; likewise fifth and seventh
 * @param probability that the label is right
 * @param runnersUp other labels that were weighed, likeliest first
 * @param besides a second reading of the same place that may stand beside the first
 */
public record ChordSpan(
    Span span,
    ChordSymbol symbol,
    Member third,
    Member fifth,
    Member seventh,
    double probability,
    List<Candidate<ChordSymbol>> runnersUp,
    Optional<ChordSymbol> besides) {
  public ChordSpan {
    Probability.check(probability);
    runnersUp = List.copyOf(runnersUp);
  }

  /** The same chord over another span. */
  public ChordSpan over(Span other) {
    return new ChordSpan(other, symbol, third, fifth, seventh, probability, runnersUp, besides);
  }

  Object essence() {
    return List.of(span, symbol, third, fifth, seventh, besides);
  }
}
