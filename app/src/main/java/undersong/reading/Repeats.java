package undersong.reading;

import java.util.List;

/** One entry per section that returns, in the order of the form; empty where none does. */
public record Repeats(List<Repeat> repeats) implements FacetValue {
  public static final Repeats NONE = new Repeats(List.of());

  public Repeats {
    repeats = List.copyOf(repeats);
  }

  @Override
  public Object essence() {
    return repeats.stream().map(Repeat::essence).toList();
  }
}
