package undersong.study;

import undersong.reading.Derived;
import undersong.reading.Dynamics;
import undersong.reading.Echoes;
import undersong.reading.Facet;
import undersong.reading.FacetValue;
import undersong.reading.Lines;
import undersong.reading.Motifs;
import undersong.reading.Reading;
import undersong.reading.Repeats;
import undersong.reading.Space;
import undersong.reading.Texture;
import undersong.reading.Tuning;
import undersong.reading.Voices;

/** Gives facets that only sound can fill the value they have in silence. */
final class SilentFacets {
  private SilentFacets() {}

  static Reading fill(Reading reading) {
    Reading filled = with(reading, Facet.TUNING, new Tuning(0, 0));
    filled = with(filled, Facet.VOICES, Voices.NONE);
    filled = with(filled, Facet.LINES, Lines.NONE);
    filled =
        with(
            filled,
            Facet.DYNAMICS,
            new Dynamics(-120, 0, java.util.List.of(), java.util.List.of()));
    filled = with(filled, Facet.SPACE, Space.NONE);
    filled = with(filled, Facet.TEXTURE, Texture.NONE);
    filled = with(filled, Facet.ECHOES, Echoes.NONE);
    filled = with(filled, Facet.REPEATS, Repeats.NONE);
    return with(filled, Facet.MOTIFS, Motifs.NONE);
  }

  private static <V extends FacetValue> Reading with(Reading reading, Facet<V> facet, V silent) {
    return reading.find(facet).isPresent() ? reading : reading.with(facet, Derived.of(silent));
  }
}
