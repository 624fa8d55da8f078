package undersong.reading;

import java.util.List;
import java.util.Optional;

/** Sections in order, without gaps from the first sound on; empty in silence. */
public record Form(List<Section> sections) implements FacetValue {
  public Form {
    sections = List.copyOf(sections);
  }

  public Optional<Section> sectionAt(double seconds) {
    return sections.stream().filter(section -> section.span().contains(seconds)).findFirst();
  }

  @Override
  public Object essence() {
    return sections.stream().map(Section::essence).toList();
  }
}
