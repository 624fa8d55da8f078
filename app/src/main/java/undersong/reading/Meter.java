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
  /** 80 beats a minute in four: common practice, no source. */
  private static final double LONGEST_USUAL_BAR_SECONDS = 3;

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

  /**
   * How many bars of a usual length one bar holds: 2 where most bars last so long that the beat is
   * likely felt half as fast as others would count it, else 1. What is measured in bars (a phrase,
   * a gap) is measured with it, so that it does not hang on the rate at which the beat is felt.
   */
  public int usualBarsPerBar() {
    double[] lengths =
        bars.stream().mapToDouble(bar -> bar.span().lengthSeconds()).sorted().toArray();
    boolean two = lengths.length > 0 && lengths[lengths.length / 2] > LONGEST_USUAL_BAR_SECONDS;
    return two ? 2 : 1;
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
