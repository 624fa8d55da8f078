package undersong.reading;

import java.util.List;

/**
 * What comes back: delays, lines performed again, doubles, and the room.
 *
 * @param echoes by start
 * @param reverbs by start, no more than one a section of the form; a section of which nothing is
 *     told has none, and where there is no form one may stand for the whole recording
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
