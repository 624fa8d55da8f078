package undersong.reading;

import java.util.List;
import undersong.time.BeatGrid;

/**
 * The pulse one taps.
 *
 * @param grid beat times; {@link BeatGrid#NO_PULSE} in silence or free time
 * @param tatumsPerBeat smallest regular division of the beat: 2, 3 or 4
 * @param swingRatio length of the first eighth over the second within a beat: 1 = even, 2 = triplet
 *     swing
 * @param probability that the metrical level and the beats are right
 * @param otherTempi other metrical levels that were weighed, in bpm
 */
public record Beats(
    BeatGrid grid,
    int tatumsPerBeat,
    double swingRatio,
    double probability,
    List<Candidate<Double>> otherTempi)
    implements FacetValue {
  public Beats {
    if (tatumsPerBeat < 2 || tatumsPerBeat > 4) {
      throw new IllegalArgumentException(
          "A beat is divided into 2, 3 or 4 tatums, not %d.".formatted(tatumsPerBeat));
    }
    if (!(swingRatio >= 0.5 && swingRatio <= 4)) {
      throw new IllegalArgumentException(
          "Swing ratio %s must lie within 0.5 to 4.".formatted(swingRatio));
    }
    Probability.check(probability);
    otherTempi = List.copyOf(otherTempi);
  }

  @Override
  public Object essence() {
    return List.of(grid, tatumsPerBeat, swingRatio);
  }
}
