package undersong.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

class FacetTest {
  @Test
  void everyFacetComesAfterAllItIsDerivedFrom() {
    Set<Facet<?>> seen = new HashSet<>();
    for (Facet<?> facet : Facet.IN_ORDER) {
      for (Facet.Input input : facet.inputs()) {
        assertThat(seen).as("facets before %s", facet).contains(input.facet());
      }
      seen.add(facet);
    }
  }

  @Test
  void barsAreNotDecidedByTheChordsTheyWillJudge() {
    assertThat(Facet.METER.inputs()).noneMatch(input -> input.facet() == Facet.CHORDS);
  }

  @Test
  void everyFacetIsFoundByItsName() {
    for (Facet<?> facet : Facet.IN_ORDER) {
      assertThat(Facet.named(facet.name()) == facet).isTrue();
    }
  }
}
