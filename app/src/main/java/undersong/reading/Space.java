package undersong.reading;

import java.util.List;

/**
 * Where the sounds stand between left and right, and how wide the whole is.
 *
 * @param bars width of each bar, in the order of the bars
 * @param events sounds with a place of their own, by start
 * @param foldDownLossDb how much level the whole loses when both channels are added into one,
 *     beyond what two unrelated channels lose; 0 or less where nothing cancels
 */
public record Space(List<BarWidth> bars, List<PlacedEvent> events, double foldDownLossDb)
    implements FacetValue {
  public static final Space NONE = new Space(List.of(), List.of(), 0);

  public Space {
    bars = List.copyOf(bars);
    events = List.copyOf(events);
  }

  @Override
  public Object essence() {
    return List.of(bars, events.stream().map(PlacedEvent::essence).toList(), foldDownLossDb);
  }
}
