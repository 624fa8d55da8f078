package undersong.reading;

import java.util.List;

/**
 * What comes back: delays, lines performed again, doubles, and the room.
 *
 * @param echoes by start
 * @param reverbs one entry per section of the form, in its order; empty where there is no form
 */
public record Echoes(List<Echo> echoes, List<Reverb> reverbs) implements FacetValue {
  public static final Echoes NONE = new Echoes(List.of(), List.of());

  public Echoes {
    echoes = List.copyOf(echoes);
    reverbs = List.copyOf(reverbs);
  }

  @Override
  public Object essence() {
    return List.of(
        echoes.stream().map(Echo::essence).toList(),
        reverbs.stream().map(Reverb::essence).toList());
  }
}
