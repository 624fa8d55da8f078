package undersong.reading;

import java.util.List;

/**
 * How loud the song is, after ITU-R BS.1770.
 *
 * @param barLufs mean loudness of each bar, in the order of the bars; -120 in silence
 * @param onsetsPerBeat onset density of each bar
 */
public record Dynamics(
    double integratedLufs, double rangeLu, List<Double> barLufs, List<Double> onsetsPerBeat)
    implements FacetValue {
  public Dynamics {
    barLufs = List.copyOf(barLufs);
    onsetsPerBeat = List.copyOf(onsetsPerBeat);
  }

  @Override
  public Object essence() {
    return List.of(integratedLufs, rangeLu, barLufs, onsetsPerBeat);
  }
}
