package undersong.reading;

import java.util.List;

/**
 * The chords seen from their keys, one event per chord span.
 *
 * @param changesPerBar chord changes in each bar, in the order of the bars (harmonic rhythm)
 */
public record Harmony(List<HarmonyEvent> events, List<Integer> changesPerBar)
    implements FacetValue {
  public Harmony {
    events = List.copyOf(events);
    changesPerBar = List.copyOf(changesPerBar);
  }

  @Override
  public Object essence() {
    return List.of(events.stream().map(HarmonyEvent::essence).toList(), changesPerBar);
  }
}
