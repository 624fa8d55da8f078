package undersong.reading;

import java.util.List;
import java.util.Optional;
import undersong.time.Span;

/**
 * How loud the song is, after ITU-R BS.1770.
 *
 * @param barLufs mean loudness of each bar, in the order of the bars; -120 in silence
 * @param onsetsPerBeat onset density of each bar
 * @param lastFall how the sound ends: from where it last comes within 6 dB of the loudest moment of
 *     its last twelve seconds to where it has fallen 26 dB below it; empty in silence and where the
 *     recording is cut off before
 */
public record Dynamics(
    double integratedLufs,
    double rangeLu,
    List<Double> barLufs,
    List<Double> onsetsPerBeat,
    Optional<Span> lastFall)
    implements FacetValue {
  public Dynamics {
    barLufs = List.copyOf(barLufs);
    onsetsPerBeat = List.copyOf(onsetsPerBeat);
  }

  /** Dynamics of which nobody measured how they end. */
  public Dynamics(
      double integratedLufs, double rangeLu, List<Double> barLufs, List<Double> onsetsPerBeat) {
    this(integratedLufs, rangeLu, barLufs, onsetsPerBeat, Optional.empty());
  }

  @Override
  public Object essence() {
    return List.of(integratedLufs, rangeLu, barLufs, onsetsPerBeat, lastFall);
  }
}
