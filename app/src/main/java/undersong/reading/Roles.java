package undersong.reading;

import java.util.List;
import undersong.time.Span;

/** One entry per section of the form, in its order. */
public record Roles(List<NamedSection> sections) implements FacetValue {
  public Roles {
    sections = List.copyOf(sections);
  }

  /**
   * A section's two roles.
   *
   * @param place what it is by where it stands (bridge by place)
   * @param function what it does (chorus by function: the payoff)
   */
  public record NamedSection(
      Span span, SectionRole place, SectionRole function, double probability) {
    public NamedSection {
      Probability.check(probability);
    }
  }

  @Override
  public Object essence() {
    return sections.stream().map(s -> List.of(s.span(), s.place(), s.function())).toList();
  }
}
