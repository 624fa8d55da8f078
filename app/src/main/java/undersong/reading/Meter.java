package undersong.reading;

import java.util.List;
import java.util.Optional;

/**
 * The bars of the song, without gaps, in order. Empty where there is no pulse.
 *
 * @param probability that the downbeats are right
 * @param otherSignatures other meters that were weighed
 */
public record Meter(
    List<Bar> bars, double probability, List<Candidate<TimeSignature>> otherSignatures)
    implements FacetValue {
  public Meter {
    bars = List.copyOf(bars);
    otherSignatures = List.copyOf(otherSignatures);
    Probability.check(probability);
    for (int i = 1; i < bars.size(); i++) {
      if (bars.get(i).number() != bars.get(i - 1).number() + 1
          || bars.get(i).firstBeat() != bars.get(i - 1).firstBeat() + bars.get(i - 1).beats()) {
        throw new IllegalArgumentException(
            "Bar %s does not follow on bar %s.".formatted(bars.get(i), bars.get(i - 1)));
      }
    }
  }

  /** The bar that sounds at a time; empty before the first, after the last, or without pulse. */
  public Optional<Bar> barAt(double seconds) {
    int low = 0;
    int high = bars.size() - 1;
    while (low <= high) {
      int middle = (low + high) >>> 1;
      Bar bar = bars.get(middle);
      if (bar.span().contains(seconds)) {
        return Optional.of(bar);
      }
      if (seconds < bar.span().startSeconds()) {
        high = middle - 1;
      } else {
        low = middle + 1;
      }
    }
    return Optional.empty();
  }

  /** The signature most bars stand in; 4/4 where there are none. */
  public TimeSignature mainSignature() {
    return bars.stream()
        .collect(
            java.util.stream.Collectors.groupingBy(
                Bar::signature,
                java.util.LinkedHashMap::new,
                java.util.stream.Collectors.counting()))
        .entrySet()
        .stream()
        .max(java.util.Map.Entry.comparingByValue())
        .map(java.util.Map.Entry::getKey)
        .orElse(TimeSignature.FOUR_FOUR);
  }

  @Override
  public Object essence() {
    return bars;
  }
}
